/** A screen for whoever stands at the machine, about one job; `about` is what it looks at, often nothing. */
export type HandRoute =
  | { readonly screen: "hand"; readonly view: HandView; readonly job: string; readonly about: string }
  | { readonly screen: "first"; readonly view: FirstView };
export type HandView = (typeof HAND_VIEWS)[number];
export type FirstView = (typeof FIRST_VIEWS)[number];

export const HAND_VIEWS = ["next", "start", "orphan", "give-over", "take-over", "find", "correct", "practice", "looks"] as const;
export const FIRST_VIEWS = ["begin", "new-job", "print-labels"] as const;

/** Read the parts of an address; null where it is none of these screens. */
export function handRoute(parts: readonly string[]): HandRoute | null {
  const [room, name, part, thing] = parts;
  if (room === "first" && parts.length < 3) {
    const view = FIRST_VIEWS.find((known) => known === (name ?? "begin"));
    return view ? { screen: "first", view } : null;
  }
  const view = HAND_VIEWS.find((known) => known === part);
  if (room !== "jobs" || name === undefined || !view || parts.length > 4) return null;
  return { screen: "hand", view, job: name, about: thing ?? "" };
}

/** Write the address of one of these screens; `handRoute` reads it back. */
export function handPath(route: HandRoute): string {
  const parts = route.screen === "first" ? ["first", route.view] : ["jobs", route.job, route.view, route.about];
  return `/${parts.filter(Boolean).map(encodeURIComponent).join("/")}`;
}
