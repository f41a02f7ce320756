import { asked, client, type Answer, type Schemas } from "./api";
import type { Trouble } from "./desk";

export type Release = Schemas["ReleaseStanding"];
/** A layout; its paper is width and height. */
export type LabelLayout = Omit<Schemas["Layout"], "paper_mm"> & { readonly paper_mm: readonly number[] | null };
export type Word = Schemas["WordWish"];

const about = (job: string) => ({ params: { path: { job } } });

/** Ask how a release stands for whoever holds this desk, with somebody else who would stand for it. */
export const getRelease = (job: string, second = ""): Promise<Answer<Release>> =>
  asked(client.GET("/api/jobs/{job}/release", { params: { path: { job }, query: second ? { second } : {} } }));

export type PhoneHeard = Schemas["PhoneHeard"];
/** The devices that wrote in a job, the one not heard of for longest first. */
export const listPhones = (job: string): Promise<Answer<PhoneHeard[]>> =>
  asked(client.GET("/api/jobs/{job}/phones", about(job)));

/** Ask for release: the verdict is taken then, with the answer to the last question and what the meter shows. */
export const askRelease = (job: string, nothingElse: boolean, meter: string): Promise<Trouble> =>
  trouble(asked(client.POST("/api/jobs/{job}/release/ask", { ...about(job), body: { nothing_else_apart: nothingElse, meter: meter.trim() || null } })));

/** Sign with a PIN, and a second person's where one is needed. */
export const signRelease = (job: string, wish: { pin: string; second: string | null; second_pin: string }): Promise<Trouble> =>
  trouble(asked(client.POST("/api/jobs/{job}/release/sign", { ...about(job), body: wish })));

/** Take a release back. */
export const withdrawRelease = (job: string, reason: string): Promise<Trouble> =>
  trouble(asked(client.POST("/api/jobs/{job}/release/withdraw", { ...about(job), body: { reason, scope: [] } })));

/** Let work go on after a release. */
export const reopenJob = (job: string, reason: string): Promise<Trouble> =>
  trouble(asked(client.POST("/api/jobs/{job}/release/reopen", { ...about(job), body: { reason, scope: [] } })));

/** Record the lead's word on a finding; what it lacks comes back in sentences. */
export const decideFinding = (job: string, word: Word): Promise<Trouble> =>
  trouble(asked(client.POST("/api/jobs/{job}/word", { ...about(job), body: word })));

export const listLayouts = (): Promise<Answer<LabelLayout[]>> => asked(client.GET("/api/label-layouts"));
export const getPrintScale = (wish: Schemas["ScaleWish"]): Promise<Answer<Schemas["Scale"]>> =>
  asked(client.POST("/api/label-layouts/scale", { body: wish }));

/** Print labels that were never printed before: the PDF, and in words which they are. */
export async function printLabels(wish: Schemas["SheetWish"]): Promise<Answer<{ pdf: Blob; words: string }>> {
  let words = "";
  const answer = await asked(
    client.POST("/api/labels/sheets", { body: wish, parseAs: "blob" }).then(({ data, error, response }) => {
      words = response.headers.get("x-labels") ?? "";
      return data === undefined ? { error } : { data: data as Blob };
    }),
  );
  return "here" in answer ? { here: { pdf: answer.here, words } } : answer;
}

async function trouble(answer: Promise<Answer<unknown>>): Promise<Trouble> {
  const came = await answer;
  return "trouble" in came ? came.trouble : null;
}
