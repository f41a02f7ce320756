import type { components } from "../api";
import { say } from "../words/say";
import { client, detailOf, previewAddress, type Answer } from "./api";

/** Ask the server for everything that a phone needs of a job. */
export async function getPocket(job: string): Promise<Answer<components["schemas"]["Pocket"]>> {
  try {
    const { data, error } = await client.GET("/api/jobs/{job}/pocket", { params: { path: { job } } });
    return data === undefined ? { trouble: detailOf(error) } : { here: data };
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
