import type { Container } from "../sync/api";
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
