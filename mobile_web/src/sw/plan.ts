/** What the service worker does with a request: `page` and `file` come from what it kept, all else goes through. */
export type Plan = "page" | "file" | "through";

/** Decide for one request by its method, kind and path; answers of the API are never kept here. */
export function planFor(method: string, mode: string, path: string, kept: ReadonlySet<string>): Plan {
  if (method !== "GET" || path.startsWith("/api/")) return "through";
  if (mode === "navigate") return /^\/(checks|desk|first|jobs|labels|phone|who)(\/|$)|^\/$/.test(path) ? "page" : "through";
  return kept.has(path) ? "file" : "through";
}
