import type { components } from "../api";
import type { OnTheWay, Sent, SentInParts } from "../outbox/send";
import { inWords } from "../words/forms";
import { say } from "../words/say";

type Schemas = components["schemas"];
export type Arriving = Schemas["Arriving"];
export type Finished = Schemas["Finished"];

/** An answer, or what keeps it from coming: refused for good, or not now. */
export type Got<T> = { readonly here: T } | Exclude<Sent, { readonly got: true }>;

/** How one original goes over; the server says how far it is. */
export interface PartWay {
  readonly state: () => Promise<Got<Arriving>>;
  readonly put: (number: number, part: ArrayBuffer, progress: (sent: number) => void) => Promise<Got<Arriving>>;
  readonly finish: () => Promise<Got<Finished>>;
}

const MOST_BEGINNINGS = 3;

/** Send an original part by part, going on where the server says; it is over when the whole was hashed there anew. */
export async function sendInParts(bytes: ArrayBuffer, way: PartWay, onTheWay: OnTheWay): Promise<SentInParts> {
  for (let beginning = 0; beginning < MOST_BEGINNINGS; beginning++) {
    const went = await sendMissing(bytes, way, onTheWay);
    if (went !== null) return went;
    const finished = await way.finish();
    if (!("here" in finished)) return finished;
    const { outcome, sentence, forms } = finished.here;
    if (outcome === "refused") return { refused: inWords(sentence, forms) };
    if (outcome !== "again") return { got: true };
  }
  return { refused: say("outbox.changed") };
}

/** Send the parts that the server lacks; null when it has them all. */
async function sendMissing(bytes: ArrayBuffer, way: PartWay, onTheWay: OnTheWay): Promise<SentInParts | null> {
  const state = await way.state();
  if (!("here" in state)) return state;
  const size = state.here.part_bytes;
  let next = state.here.here ? Infinity : state.here.parts;
  while (next * size < bytes.byteLength) {
    if (await onTheWay.mayPass()) return { paused: true };
    const start = next * size;
    onTheWay.progress(start);
    const part = bytes.slice(start, start + size);
    const put = await way.put(next, part, (sent) => onTheWay.progress(start + sent));
    if (!("here" in put)) return put;
    if (start + size >= bytes.byteLength) return null;
    if (put.here.parts <= next) return { unreached: say("outbox.stuck") };
    next = put.here.parts;
  }
  return null;
}
