/** A screen about this phone itself: what waits on it; or about what was shot to be sorted later. */
export type PhoneRoute =
  | { readonly screen: "phone"; readonly view: "waiting" }
  | { readonly screen: "phone"; readonly view: "sort"; readonly job: string };

/** Read the parts of an address; null where it is none of these screens. */
export function phoneRoute(parts: readonly string[]): PhoneRoute | null {
  const [room, name, part] = parts;
  if (room === "phone" && parts.length === 1) return { screen: "phone", view: "waiting" };
  if (room === "jobs" && name !== undefined && part === "sort" && parts.length === 3) return { screen: "phone", view: "sort", job: name };
  return null;
}

/** Write the address of one of these screens; `phoneRoute` reads it back. */
export function phonePath(route: PhoneRoute): string {
  return route.view === "waiting" ? "/phone" : `/jobs/${encodeURIComponent(route.job)}/sort`;
}
