/** Screens about who is here: the person on this device, and for the lead people, devices and what is held. */
export type WhoRoute = { readonly screen: "who"; readonly view: WhoView };
export type WhoView = (typeof WHO_VIEWS)[number];

export const WHO_VIEWS = ["me", "people", "devices", "held", "phone"] as const;

/** Read the parts of an address; null where it is none of these. */
export function whoRoute(parts: readonly string[]): WhoRoute | null {
  const [room, name] = parts;
  if (room !== "who" || parts.length > 2) return null;
  const view = WHO_VIEWS.find((known) => known === (name ?? "me"));
  return view ? { screen: "who", view } : null;
}

/** Write the address; `whoRoute` reads it back. */
export function whoPath({ view }: WhoRoute): string {
  return view === "me" ? "/who" : `/who/${view}`;
}
