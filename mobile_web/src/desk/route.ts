/** A screen of the lead's desk: about the shop, or about one job; `about` is what it looks at, often nothing. */
export type DeskRoute =
  | { readonly screen: "desk"; readonly view: ShopView; readonly about: string }
  | { readonly screen: "review"; readonly view: ReviewView; readonly job: string; readonly about: string };
export type ShopView = (typeof SHOP_VIEWS)[number];
export type ReviewView = (typeof REVIEW_VIEWS)[number];

export const SHOP_VIEWS = ["board", "search", "statistics", "questions", "labels", "transfer"] as const;
export const REVIEW_VIEWS = ["review", "pairs", "machine", "torque-table", "trays", "history", "handover-sheet", "release"] as const;

/** Read the parts of an address; null where it is no screen of the desk. */
export function deskRoute(parts: readonly string[]): DeskRoute | null {
  const [room, name, part, thing] = parts;
  if (room === "desk" && parts.length < 4) {
    const view = SHOP_VIEWS.find((known) => known === (name ?? "board"));
    return view ? { screen: "desk", view, about: part ?? "" } : null;
  }
  const view = REVIEW_VIEWS.find((known) => known === part);
  if (room !== "jobs" || name === undefined || !view || parts.length > 4) return null;
  return { screen: "review", view, job: name, about: thing ?? "" };
}

/** Write the address of a screen of the desk; `deskRoute` reads it back. */
export function deskPath(route: DeskRoute): string {
  const head = route.screen === "desk" ? ["desk"] : ["jobs", route.job];
  return `/${[...head, route.view, route.about].filter(Boolean).map(encodeURIComponent).join("/")}`;
}
