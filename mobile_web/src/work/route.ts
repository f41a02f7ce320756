/** The screens of the phone at the machine: the hub with the camera, where a set was, and a set going back on. */
export interface WorkRoute {
  readonly screen: "work";
  readonly job: string;
  readonly view: WorkView;
  /** The set that `where` and `back` are about; empty in the hub. */
  readonly about: string;
}
export type WorkView = "hub" | "where" | "back";

/** Read the parts of a path; null where it is none of these screens. */
export function workRoute(parts: readonly string[]): WorkRoute | null {
  const [room, job, view, about] = parts;
  if (room !== "jobs" || job === undefined) return null;
  if (view === "work" && about === undefined) return { screen: "work", job, view: "hub", about: "" };
  if ((view === "where" || view === "back") && about !== undefined && parts.length === 4) return { screen: "work", job, view, about };
  return null;
}

/** Write the path of one of these screens. */
export function workPath({ job, view, about }: WorkRoute): string {
  const home = `/jobs/${encodeURIComponent(job)}`;
  return view === "hub" ? `${home}/work` : `${home}/${view}/${encodeURIComponent(about)}`;
}
