import { shown } from "../scan/label_code";
import type { Container } from "../sync/api";
import { ownWord } from "./own_word";
import { say } from "./say";

/** Say what pieces lie in a container: how many, of what type, of which set. */
export function piecesWords(pieces: Container["contents"][number]): string {
  const what = [pieces.new ? "new" : "", pieces.type ?? "pieces"].filter(Boolean).join(" ");
  const counted = say("container.pieces", { n: pieces.n, what });
  return pieces.set ? `${counted} ${say("container.of", { set: pieces.set })}` : counted;
}

/** Say what the reader counted in a picture, which is an estimate. */
export function countWords(counted: NonNullable<Container["counted"]>): string {
  const { low, high } = counted;
  return low === high ? say("container.counted.exact", { high }) : say("container.counted", { low, high });
}

/** Say what a container is, and its label where that is not its name already. */
export function bornBy({ kind, label, container }: Pick<Container, "kind" | "label" | "container">): string {
  const is = ownWord("container", kind);
  if (label === null) return `${is} · ${say("container.no.label")}`;
  return label === shown(container) ? is : `${is} · ${say("container.label", { label })}`;
}
