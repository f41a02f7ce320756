import type { AccessNode } from "../sync/desk";
import { served } from "../words/served";
import { say } from "../words/say";

/** Say what a thing on the map is. */
export function kindWords({ kind }: AccessNode): string {
  return say(kind === "other" ? "kind.thing" : `kind.${kind}`);
}

/** Say in words what a thing on the map owes or where it lies; often nothing. */
export function owedWords({ words, forms }: AccessNode): string {
  return words && served(words, forms);
}
