import createClient from "openapi-fetch";

import type { paths } from "../api";
import type { Post, Sent } from "../outbox/send";
import { say } from "../words/say";
import { detailOf } from "./api";

/** Answers that stay the same however often one asks; anything else may pass and is tried again. */
const FOR_GOOD = new Set([400, 404, 409, 413, 415, 422]);

const client = createClient<paths>({ headers: { accept: "application/json" } });

/** The way from the outbox to the server. */
export const post: Post = {
  entries: (job, entries) =>
    sent(client.POST("/api/jobs/{job}/entries", { params: { path: { job } }, body: [...entries] })),
  photo: async (photo, bytes) => {
    const form = new FormData();
    form.append("photos", new Blob([bytes], { type: photo.type }), `${photo.sha256.slice(0, 12)}.jpg`);
    form.append("by", photo.by);
    const request = client.POST("/api/jobs/{job}/photos", {
      params: { path: { job: photo.job } },
      body: { photos: [], by: photo.by },
      bodySerializer: () => form,
    });
    return sent(request, (outcomes) => outcomes.find((outcome) => !outcome.kept)?.sentence ?? null);
  },
};

type Request<T> = Promise<{ data?: T; error?: unknown; response: Response }>;

/** Read an answer; `refusalIn` finds a refusal inside one that went through. */
async function sent<T>(request: Request<T>, refusalIn: (data: T) => string | null = () => null): Promise<Sent> {
  try {
    const { data, error, response } = await request;
    if (data !== undefined) {
      const refusal = refusalIn(data);
      return refusal === null ? { got: true } : { refused: refusal };
    }
    const detail = detailOf(error);
    return FOR_GOOD.has(response.status) ? { refused: detail } : { unreached: detail };
  } catch {
    return { unreached: say("failed.offline") };
  }
}
