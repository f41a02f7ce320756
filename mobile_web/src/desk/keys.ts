import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";

/** What a key does; keys are named as `KeyboardEvent.key` names them. */
export type Keys = Readonly<Record<string, () => void>>;

const KEPT_AS = "lastbolt: single keys off";

/** Whether single keys act: somebody who speaks to the machine, or types blindly, can turn them off (WCAG 2.1.4). */
export const keysOn = signal(localStorage.getItem(KEPT_AS) === null);

/** Turn the single keys on or off, and remember it here. */
export function turnKeys(on: boolean): void {
  keysOn.value = on;
  if (on) localStorage.removeItem(KEPT_AS);
  else localStorage.setItem(KEPT_AS, "off");
}

/** Listen to single keys while a screen is there; never while somebody types or a modifier is held. */
export function useKeys(keys: Keys): void {
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const act = latest.current[event.key];
      if (!act || !keysOn.value || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
      event.preventDefault();
      act();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, []);
}

/** Walk a list: a key that comes before the screen is drawn anew goes on from where the key before led. */
export function usePlace(at: number, length: number, choose: (place: number) => void) {
  const now = useRef(at);
  now.current = at;
  const go = (to: number) => {
    now.current = Math.min(length - 1, Math.max(0, to));
    choose(now.current);
  };
  return { go, step: (by: number) => go(now.current + by) };
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["radio", "checkbox", "button", "submit"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable;
}
