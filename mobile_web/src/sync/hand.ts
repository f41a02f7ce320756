import { remember, remembered } from "../outbox/box";
import { outbox } from "../outbox/here";
import { language } from "../words/language";
import { say } from "../words/say";
import { asked, client, detailOf, type Answer, type Schemas } from "./api";

export type NextSteps = Schemas["NextSteps"];
export type Step = Schemas["Step"];
export type StartGuard = Schemas["StartGuard"];
export type TakeOver = Schemas["TakeOver"];
export type SheetSection = Schemas["SheetSection"];
export type SheetLine = Schemas["SheetLine"];
export type TrayToSee = Schemas["TrayToSee"];
export type Tag = Schemas["Tag"];
export type Resting = Schemas["Resting"];
export type Witness = Schemas["Witness"];
export type Orphan = Schemas["Orphan"];
export type Offer = Schemas["Offer"];

/** An answer of the server; `old` says when it was given and why there is no newer one, null when it is new. */
export interface Kept<T> {
  readonly here: T;
  readonly old: { readonly since: string; readonly trouble: string } | null;
}

const of = (job: string) => ({ params: { path: { job } } });

export const getNext = (job: string) => kept<NextSteps>(`next in ${job}`, asked(client.GET("/api/jobs/{job}/next", of(job))));
export const getStartGuard = (job: string) =>
  kept<StartGuard>(`start of ${job}`, asked(client.GET("/api/jobs/{job}/start", of(job))));
export const getTakeOver = (job: string) =>
  kept<TakeOver>(`handover of ${job}`, asked(client.GET("/api/jobs/{job}/takeover", of(job))));
export const getResting = (job: string, entry: string): Promise<Answer<Resting>> =>
  asked(client.GET("/api/jobs/{job}/entries/{entry}/rests", { params: { path: { job, entry } } }));

/** Ask where a piece measured by hand may belong; all in millimetres. */
export const findHome = (job: string, diameter: number | null, length: number | null): Promise<Answer<Orphan>> =>
  asked(
    client.GET("/api/jobs/{job}/orphan", {
      params: { path: { job }, query: { diameter_mm: diameter, length_mm: length } },
    }),
  );

/** Ask where the pieces in a photo may belong. */
export function findHomeInPhoto(job: string, photo: Blob): Promise<Answer<Orphan[]>> {
  const form = new FormData();
  form.append("photo", photo, "piece.jpg");
  return asked(
    client.POST("/api/jobs/{job}/orphan", { ...of(job), body: { photo: "" }, bodySerializer: () => form }),
  );
}

/** Take numbers for bags that are written by hand; none is given out twice. */
export const takeNumbers = (count: number): Promise<Answer<Schemas["Numbers"]>> =>
  asked(client.POST("/api/labels/numbers", { body: { kind: "B", count } }));

/** Print a sheet of new labels: its PDF, and in words which are on it. */
export async function printSheet(): Promise<Answer<{ readonly pdf: Blob; readonly words: string }>> {
  try {
    const { data, error, response } = await client.POST("/api/labels/sheets", {
      body: { layout: "a4-3x8", kind: "B", count: 24, scale: 1, language: language.value },
      parseAs: "blob",
    });
    const pdf: unknown = data;
    if (!response.ok || !(pdf instanceof Blob)) return { trouble: detailOf(error) };
    return { here: { pdf, words: response.headers.get("x-labels") ?? "" } };
  } catch {
    return { trouble: say("failed.offline") };
  }
}

/** Keep an answer for when the server is out of reach, and give the last one then, with its time. */
export async function kept<T>(what: string, asking: Promise<Answer<T>>): Promise<Answer<Kept<T>>> {
  const answer = await asking;
  const { box } = await outbox;
  if ("here" in answer) {
    await remember(box, what, { here: answer.here, since: new Date().toISOString() }).catch(() => undefined);
    return { here: { here: answer.here, old: null } };
  }
  const last = (await remembered(box, what).catch(() => undefined)) as { here: T; since: string } | undefined;
  return last ? { here: { here: last.here, old: { since: last.since, trouble: answer.trouble } } } : answer;
}
