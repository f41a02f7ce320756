import { asked, client, type Answer, type Schemas } from "./api";

export type Found = Schemas["Found"];
export type JobStatistics = Schemas["JobStatistics"];
export type ReaderHere = Schemas["ReaderHere"];
export type BroughtIn = Schemas["BroughtIn"];

export const search = (q: string): Promise<Answer<Found>> => asked(client.GET("/api/search", { params: { query: { q, limit: 100 } } }));
export const getStatistics = (job: string): Promise<Answer<JobStatistics>> =>
  asked(client.GET("/api/statistics", { params: { query: { job } } }));
export const getReader = (): Promise<Answer<ReaderHere>> => asked(client.GET("/api/statistics/reader"));

/** Bring in a job that another shop handed over as one zip. */
export function bringIn(file: File): Promise<Answer<BroughtIn>> {
  const form = new FormData();
  form.append("bundle", file, file.name);
  return asked(client.POST("/api/bundles", { body: { bundle: "" }, bodySerializer: () => form }));
}

const of = (job: string) => ({ params: { query: { job } } });

export const whoTightened = (job: string, set: string, hole: number | null): Promise<Answer<Schemas["Tightening"][]>> =>
  asked(client.GET("/api/auditor/tightened", { params: { query: hole ? { job, set, hole } : { job, set } } }));
export const whereWrench = (wrench: string, since: string, until: string): Promise<Answer<Schemas["Use"][]>> =>
  asked(client.GET("/api/auditor/wrench", { params: { query: { wrench, ...day("since", since), ...day("until", until) } } }));
export const doubtfulWrench = (wrench: string, since: string): Promise<Answer<Schemas["Joint"][]>> =>
  asked(client.GET("/api/auditor/doubtful-wrench", { params: { query: { wrench, ...day("since", since) } } }));
export const deferrals = (): Promise<Answer<Schemas["Deferral"][]>> => asked(client.GET("/api/auditor/deferrals"));
export const afterSigning = (job: string): Promise<Answer<Schemas["Later"][]>> => asked(client.GET("/api/auditor/after-signing", of(job)));
export const nobody = (job: string): Promise<Answer<Schemas["Unattended"][]>> => asked(client.GET("/api/auditor/nobody", of(job)));
export const ownDecisions = (): Promise<Answer<Schemas["OwnDecision"][]>> => asked(client.GET("/api/auditor/own-decisions"));
export const getAudit = (job: string): Promise<Answer<Schemas["Audit"]>> =>
  asked(client.GET("/api/jobs/{job}/audit", { params: { path: { job } } }));

/** Give a day as the moment at which it begins, or the next one does, where somebody sits; nothing for no day. */
function day(name: "since" | "until", on: string): Partial<Record<"since" | "until", string>> {
  if (!on) return {};
  const at = new Date(`${on}T00:00:00`);
  if (name === "until") at.setDate(at.getDate() + 1);
  return { [name]: at.toISOString() };
}
