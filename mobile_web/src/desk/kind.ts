import type { AccessNode } from "../sync/desk";
import { say } from "../words/say";

/** Say what a thing on the map is. */
export function kindWords({ kind }: AccessNode): string {
  return say(kind === "other" ? "kind.thing" : `kind.${kind}`);
}
