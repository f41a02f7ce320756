import type { components } from "../api";
import { say } from "../words/say";
import { client, detailOf, previewAddress, type Answer } from "./api";

/** A pocket and the mark that the server gave it, or word that the one with the mark asked with is the newest. */
export type Pocketed = { readonly pocket: components["schemas"]["Pocket"]; readonly tag: string | null } | "unchanged";

/** Ask the server for everything that a phone needs of a job; `tag` is the mark of what it has already. */
export async function getPocket(job: string, tag: string | null): Promise<Answer<Pocketed>> {
  try {
    const headers = tag ? { "if-none-match": tag } : {};
    const { data, error, response } = await client.GET("/api/jobs/{job}/pocket", { params: { path: { job } }, headers, cache: "no-store" });
    if (response.status === 304) return { here: "unchanged" };
    return data === undefined ? { trouble: detailOf(error) } : { here: { pocket: data, tag: response.headers.get("etag") } };
  } catch {
    return { trouble: say("failed.offline") };
  }
}

/** Fetch a photo's small picture; null where the server has none or is out of reach. */
export async function getPreview(sha256: string): Promise<Blob | null> {
  try {
    const answer = await fetch(previewAddress(sha256));
    return answer.ok ? await answer.blob() : null;
  } catch {
    return null;
  }
}
