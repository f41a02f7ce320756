import { waitingOf } from "../outbox/box";
import { outbox } from "../outbox/here";
import type { Draft } from "../outbox/outbox";
import { sight } from "../outbox/sight";
import { say } from "../words/say";
import { asked, client, type Answer, type Lines, type Schemas } from "./api";

export type Board = Schemas["Board"];
export type BoardJob = Schemas["BoardJob"];
export type DeskList = Schemas["DeskList"];
export type DeskFinding = Schemas["DeskFinding"];
export type Pair = Schemas["Pair"];
export type Shot = Schemas["Shot"];
export type Tray = Schemas["Tray"];
export type AccessGraph = Schemas["AccessGraph"];
export type AccessNode = Schemas["AccessNode"];
export type AccessEdge = Schemas["AccessEdge"];
export type UndoPath = Schemas["UndoPath"];
export type ReviewEnd = Schemas["ReviewEnd"];
export type HandoverSheet = Schemas["HandoverSheet"];

const about = (job: string) => ({ params: { path: { job } } });

export const getBackup = (): Promise<Answer<Schemas["Backup"]>> => asked(client.GET("/api/backup"));
export const getReadings = (): Promise<Answer<Schemas["Readings"]>> => asked(client.GET("/api/readings"));
export const getBoard = (): Promise<Answer<Board>> => asked(client.GET("/api/board"));
export const getDeskList = (job: string): Promise<Answer<DeskList>> => asked(client.GET("/api/jobs/{job}/desk-list", about(job)));
export const listTrays = (job: string): Promise<Answer<Tray[]>> => asked(client.GET("/api/jobs/{job}/trays", about(job)));
export const getReviewEnd = (job: string): Promise<Answer<ReviewEnd>> => asked(client.GET("/api/jobs/{job}/review", about(job)));
export const getAccess = (job: string): Promise<Answer<AccessGraph>> => asked(client.GET("/api/jobs/{job}/access", about(job)));
export const getUndo = (job: string, element: string): Promise<Answer<UndoPath>> =>
  asked(client.GET("/api/jobs/{job}/undo", { params: { path: { job }, query: { element } } }));
export const getHandover = (job: string): Promise<Answer<HandoverSheet>> => asked(client.GET("/api/jobs/{job}/handover", about(job)));
export const listEntriesFrom = (job: string, before: number): Promise<Answer<Lines>> =>
  asked(client.GET("/api/jobs/{job}/entries", { params: { path: { job }, query: { before, limit: 500 } } }));

/** What came of recording at the desk: null when the server has it, else one sentence. */
export type Trouble = string | null;

/** Record the lead's word, as `recordAs` does. */
export const recordAsLead = (job: string, drafts: readonly Draft[]): Promise<Trouble> =>
  recordAs(job, drafts.map((draft) => ({ ...draft, role: "lead" })));

/** Record and wait until the server has it: what is shown next rests on it. */
export async function recordAs(job: string, drafts: readonly Draft[]): Promise<Trouble> {
  const opened = await outbox;
  const kept = await opened.record(job, drafts);
  if ("trouble" in kept) return kept.trouble === "nobody" ? say("desk.nobody") : kept.trouble;
  await opened.send();
  const ids = new Set(kept.here.map((entry) => entry.id));
  const left = (await waitingOf(opened.box, job)).some((entry) => ids.has(entry.id));
  if (!left) return null;
  return sight.value.refused[0] ?? sight.value.unreached ?? say("failed.offline");
}
