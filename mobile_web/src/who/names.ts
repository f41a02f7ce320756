const KEPT_UNDER = "lastbolt names";
const MOST = 6;

/** Give the names that signed in on this device, the last one first; they are no secret. */
export function knownNames(): string[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEPT_UNDER) ?? "[]");
    return Array.isArray(found) ? found.filter((name) => typeof name === "string") : [];
  } catch {
    return [];
  }
}

/** Remember a name, so that nobody types it again. */
export function remember(name: string): void {
  const names = [name, ...knownNames().filter((known) => known !== name)].slice(0, MOST);
  try {
    localStorage.setItem(KEPT_UNDER, JSON.stringify(names));
  } catch {
    // A browser that keeps nothing asks for the name again; nothing else is lost.
  }
}
