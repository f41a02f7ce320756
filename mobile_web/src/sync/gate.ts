import { signal } from "@preact/signals";

/** Whether the page shows what it knows: `open` once somebody is signed in here, else what is needed. */
export type Gate = "looking" | "open" | "pin" | "out" | "cut";
export const gate = signal<Gate>("looking");

let ask: () => void = () => undefined;

/** Say what is to be done when the server answers that nobody is signed in. */
export function whenNotSignedIn(look: () => void): void {
  ask = look;
}

/** The server answered 401: find out what is needed. Whoever speaks to the server by other ways calls this too. */
export function notSignedIn(): void {
  ask();
}
