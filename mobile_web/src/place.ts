import { signal } from "@preact/signals";

import { pathOf, routeFrom, type Route } from "./route";

/** Where the page is now; every screen reads it, only `goTo` and the browser's own buttons change it. */
export const place = signal<Route>(routeFrom(location.pathname));

/** Go to another screen, as a link does. */
export function goTo(route: Route): void {
  history.pushState(null, "", pathOf(route));
  arrive();
  scrollTo(0, 0);
}

/** Follow clicks on our own links without loading the page again, and the browser's back button. */
export function followLinks(): void {
  addEventListener("popstate", arrive);
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!link || !isOurs(link) || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    goTo(routeFrom(new URL(link.href).pathname));
  });
}

function arrive(): void {
  place.value = routeFrom(location.pathname);
}

function isOurs(link: HTMLAnchorElement): boolean {
  const address = new URL(link.href);
  const elsewhere = link.target || link.hasAttribute("download") || address.hash || address.pathname.startsWith("/api/");
  return address.origin === location.origin && !elsewhere;
}
