import type { components } from "../api";
import { inWords, type Form } from "../words/forms";
import { say } from "../words/say";
import { client } from "./client";

export type Schemas = components["schemas"];
export type Job = Schemas["Job"];
export type Finding = Schemas["Finding"];
export type Findings = Schemas["Findings"];
export type Container = Schemas["Container"];
export type Photo = Schemas["Photo"];
export type Lines = Schemas["Lines"];
export type Line = Schemas["Line"];
export type Label = Schemas["Label"];
export type CheckPage = Schemas["CheckPage"];
export type TorqueSheet = Schemas["TorqueSheet"];
export type TorqueRow = Schemas["TorqueRow"];
export type Severity = Finding["severity"];

/** What came of asking the server: the answer, or one sentence that says why there is none. */
export type Answer<T> = { readonly here: T } | { readonly trouble: string };

export { client };

export const listJobs = (): Promise<Answer<Job[]>> => asked(client.GET("/api/jobs"));
export const getJob = (job: string): Promise<Answer<Job>> =>
  asked(client.GET("/api/jobs/{job}", { params: { path: { job } } }));
export const listFindings = (job: string): Promise<Answer<Findings>> =>
  asked(client.GET("/api/jobs/{job}/findings", { params: { path: { job } } }));
export const listContainers = (job: string): Promise<Answer<Container[]>> =>
  asked(client.GET("/api/jobs/{job}/containers", { params: { path: { job } } }));
export const listPhotos = (job: string): Promise<Answer<Photo[]>> =>
  asked(client.GET("/api/jobs/{job}/photos", { params: { path: { job } } }));
export const listEntries = (job: string, before: number | null): Promise<Answer<Lines>> =>
  asked(client.GET("/api/jobs/{job}/entries", { params: { path: { job }, query: before ? { before } : {} } }));
export const listNewest = (job: string): Promise<Answer<Lines>> =>
  asked(client.GET("/api/jobs/{job}/entries", { params: { path: { job }, query: { limit: 500 } } }));
/** Every entry of a job, the oldest first, page by page. */
export async function listAll(job: string): Promise<Answer<Readonly<Record<string, unknown>>[]>> {
  const entries: Readonly<Record<string, unknown>>[] = [];
  let before: number | null = null;
  do {
    const page: Answer<Lines> = await asked(client.GET("/api/jobs/{job}/entries", { params: { path: { job }, query: { limit: 500, ...(before ? { before } : {}) } } }));
    if ("trouble" in page) return page;
    entries.push(...page.here.lines.map((line) => line.entry));
    before = page.here.before ?? null;
  } while (before !== null);
  return { here: entries.reverse() };
}
export const getTorqueSheet = (job: string): Promise<Answer<TorqueSheet>> =>
  asked(client.GET("/api/jobs/{job}/torque", { params: { path: { job } } }));
export const listChecks = (): Promise<Answer<CheckPage[]>> => asked(client.GET("/api/checks"));
export const getLabel = (code: string): Promise<Answer<Label>> =>
  asked(client.GET("/api/labels/{code}", { params: { path: { code } } }));

export const previewAddress = (sha256: string): string => `/api/photos/${sha256}/preview`;
export const smallAddress = (sha256: string): string => `/api/photos/${sha256}/small`;
export const originalAddress = (sha256: string): string => `/api/photos/${sha256}`;

/** Ask the server, and give its answer or a sentence that says why there is none. */
export async function asked<T>(request: Promise<{ data?: T; error?: unknown }>): Promise<Answer<T>> {
  try {
    const { data, error } = await request;
    return data === undefined ? { trouble: detailOf(error) } : { here: data };
  } catch {
    return { trouble: say("failed.offline") };
  }
}

/** Take the sentence out of a problem (RFC 9457). */
export function detailOf(problem: unknown): string {
  const { detail, forms } = (problem ?? {}) as { readonly detail?: string; readonly forms?: readonly Form[] };
  return typeof detail === "string" ? inWords(detail, forms) : say("failed");
}
