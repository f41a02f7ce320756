import type { PocketSet } from "./shape";
import type { Raw } from "./overlay";

type Trace = NonNullable<PocketSet["last"]>;

/** Read a field as text; null where it is none. */
export function text(entry: Raw, field: string): string | null {
  const value = entry[field];
  return typeof value === "string" && value !== "" ? value : null;
}

/** Read a field as a number; null where it is none. */
export function number(entry: Raw, field: string): number | null {
  const value = entry[field];
  return typeof value === "number" ? value : null;
}

/** Read a field as a list of T; empty where it is none. */
export function list<T>(entry: Raw, field: string): readonly T[] {
  const value = entry[field];
  return Array.isArray(value) ? (value as T[]) : [];
}

/** Give the trace of an entry. */
export function traceOf(entry: Raw): Trace {
  const [id, kind, by, at] = ["id", "kind", "by", "at"].map((field) => text(entry, field) ?? "");
  return { entry: id ?? "", kind: kind ?? "", by: by ?? "", at: at ?? "" };
}
