import { useRef } from "preact/hooks";

/** Keep a list in the order in which it was first seen, what is new at its end: nothing moves away under a finger when news comes. */
export function useSteady<T>(items: readonly T[], keyOf: (item: T) => string): readonly T[] {
  const order = useRef<readonly string[]>([]);
  order.current = steady(order.current, items.map(keyOf));
  const found = new Map(items.map((item) => [keyOf(item), item]));
  return order.current.flatMap((key) => found.get(key) ?? []);
}

/** Give the keys in their order so far: what is gone is left out, what is new comes last. */
export function steady(soFar: readonly string[], now: readonly string[]): readonly string[] {
  return [...soFar.filter((key) => now.includes(key)), ...new Set(now.filter((key) => !soFar.includes(key)))];
}
