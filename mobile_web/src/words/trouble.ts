import { say } from "./say";

/** Say why a browser could not keep something, by the name of its error. */
export function keepingTrouble(name: string): string {
  return name === "QuotaExceededError" ? say("outbox.full") : name;
}
