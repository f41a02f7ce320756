import { previewOf } from "../camera/preview";
import type { WaitingPhoto } from "../outbox/box";
import { clockText } from "../outbox/clock";
import type { Post, Sent } from "../outbox/send";
import { sha256 } from "../outbox/sha256";
import { say } from "../words/say";
import { detailOf } from "./api";
import { client } from "./client";
import { notSignedIn } from "./gate";
import { sendInParts, type Arriving, type Finished, type Got, type PartWay } from "./upload";
import { ask, type Sending } from "./xhr";

/** Answers that stay the same however often one asks; anything else, as when the PIN is needed (401), is tried again. */
const FOR_GOOD = new Set([400, 403, 404, 409, 413, 415, 422]);

const STALL_MS = 20_000;
/** A photo is read before it is kept, when it is this phone's turn. */
const READING_MS = 120_000;

/** The way from the outbox to the server. */
export const post: Post = {
  entries: async (job, entries) => {
    await markClock(job);
    return sent(client.POST("/api/jobs/{job}/entries", { params: { path: { job } }, body: [...entries] }), ({ held }) => held);
  },
  preview: async (photo, bytes) => {
    const small = await previewOf(bytes, photo.type);
    if (!small) return { got: true };
    const address = `${photoAddress(photo.sha256)}/preview?sha256=${await sha256(small)}`;
    const reply = await asked<null>({ method: "PUT", address, body: new Blob([small]), stallMs: STALL_MS });
    return "here" in reply ? { got: true } : reply;
  },
  original: (photo, bytes, onTheWay) => sendInParts(bytes, partWay(photo), onTheWay),
};

function partWay(photo: WaitingPhoto): PartWay {
  const parts = `${photoAddress(photo.sha256)}/parts`;
  return {
    state: () => asked<Arriving>({ method: "GET", address: parts, stallMs: STALL_MS }),
    put: (number, part, progress) =>
      asked<Arriving>({ method: "PUT", address: `${parts}/${number}`, body: new Blob([part]), stallMs: STALL_MS, progress }),
    finish: () =>
      asked<Finished>({
        method: "POST",
        address: `/api/jobs/${encodeURIComponent(photo.job)}/photos/${photo.sha256}`,
        body: JSON.stringify({ by: photo.by }),
        stallMs: READING_MS,
      }),
  };
}

const photoAddress = (hash: string): string => `/api/photos/${hash}`;

/** Read a reply as `sent` does: what it says, a refusal for good, or that it could not be asked now. */
async function asked<T>(sending: Sending): Promise<Got<T>> {
  const reply = await ask(sending);
  if (reply.status === null) return { unreached: say("failed.offline") };
  if (reply.status < 300) return { here: reply.body as T };
  if (reply.status === 401) notSignedIn();
  const detail = detailOf(reply.body);
  return FOR_GOOD.has(reply.status) ? { refused: detail } : { unreached: detail };
}

const marked = new Set<string>();

/** Tell the server once a load what this clock says, so that a wrong one is set right in the record; it may fail. */
async function markClock(job: string): Promise<void> {
  if (marked.has(job)) return;
  const body = { now: clockText(new Date()) };
  const done = await client.POST("/api/jobs/{job}/clock", { params: { path: { job } }, body }).catch(() => null);
  if (done?.data?.job_is_here) marked.add(job);
}

type Request<T> = Promise<{ data?: T; error?: unknown; response: Response }>;

async function sent<T>(request: Request<T>, heldOf: (data: T) => number): Promise<Sent> {
  try {
    const { data, error, response } = await request;
    if (data !== undefined) return { got: true, held: heldOf(data) };
    const detail = detailOf(error);
    return FOR_GOOD.has(response.status) ? { refused: detail } : { unreached: detail };
  } catch {
    return { unreached: say("failed.offline") };
  }
}
