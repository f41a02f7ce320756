/** What the service worker does with a request: `page` and `file` come from what it kept, `page unless reached` only where the server is out of reach; all else goes through. */
export type Plan = "page" | "page unless reached" | "file" | "through";

const OF_THE_SERVER = /^\/(api|ca|CA)(\/|$)|^\/sw\.js$/;
const LABEL = /^\/[Ll]\/[^/]+$/;

/** Decide for one request by its method, kind and path; answers of the API are never kept here. An address that nobody knows opens the page, which says so. */
export function planFor(method: string, mode: string, path: string, kept: ReadonlySet<string>): Plan {
  if (method !== "GET" || OF_THE_SERVER.test(path)) return "through";
  if (mode !== "navigate") return kept.has(path) ? "file" : "through";
  if (LABEL.test(path)) return "page unless reached";
  return path.startsWith("/assets/") || (path !== "/" && kept.has(path)) ? "through" : "page";
}
