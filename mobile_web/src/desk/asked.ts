import type { Answer } from "../sync/api";
import { afterSigning, deferrals, doubtfulWrench, getAudit, nobody, ownDecisions, whereWrench, whoTightened } from "../sync/records";
import { checkWords } from "../words/check";
import { moment } from "../words/moment";
import { say, type Message } from "../words/say";

/** What a question may be about. */
export interface Given {
  readonly job: string;
  readonly set: string;
  readonly hole: string;
  readonly wrench: string;
  readonly since: string;
  readonly until: string;
}

type Rows = readonly (readonly string[])[];

/** One of the auditor's questions: what it needs to know, how it is asked, how its answer reads. */
export interface Asked {
  readonly question: Message;
  readonly needs: readonly Exclude<keyof Given, "job">[];
  readonly heads: readonly Message[];
  readonly nothing: Message;
  readonly ask: (given: Given) => Promise<Answer<Rows>>;
}

const yes = (on: boolean) => say(on ? "asked.yes" : "asked.no");
const holes = (numbers: readonly number[]) => (numbers.length ? numbers.join(", ") : say("asked.all.holes"));

async function rows<T>(answer: Promise<Answer<readonly T[]>>, row: (each: T) => readonly string[]): Promise<Answer<Rows>> {
  const came = await answer;
  return "here" in came ? { here: came.here.map(row) } : came;
}

export const ASKED: readonly Asked[] = [
  {
    question: "asked.tightened",
    needs: ["set"],
    heads: ["asked.hole", "asked.who", "asked.when", "asked.value", "asked.wrench", "asked.due", "asked.wanted", "asked.source", "asked.looked"],
    nothing: "asked.tightened.none",
    ask: ({ job, set, hole }) =>
      rows(whoTightened(job, set, Number(hole) || null), (each) => [
        say("asked.hole.stage", { hole: each.hole, stage: each.stage }), each.by, moment(each.at), each.value, each.wrench, moment(each.wrench_due), each.asked, each.source, each.looked,
      ]), // prettier-ignore
  },
  {
    question: "asked.wrench.jobs",
    needs: ["wrench"],
    heads: ["choose.job", "asked.set", "asked.holes", "asked.value", "asked.who", "asked.when"],
    nothing: "asked.wrench.none",
    ask: ({ wrench, since, until }) =>
      rows(whereWrench(wrench, since, until), (each) => [`${each.machine} (${each.job})`, each.set, holes(each.holes), each.value, each.by, moment(each.at)]),
  },
  {
    question: "asked.wrench.doubt",
    needs: ["wrench"],
    heads: ["choose.job", "asked.set", "asked.holes", "asked.when", "asked.critical", "asked.gone"],
    nothing: "asked.doubt.none",
    ask: ({ wrench, since }) =>
      rows(doubtfulWrench(wrench, since), (each) => [`${each.machine} (${each.job})`, each.set, holes(each.holes), moment(each.pulled), yes(each.critical), yes(each.released)]),
  },
  {
    question: "asked.deferrals",
    needs: [],
    heads: ["choose.job", "asked.what", "asked.limit", "asked.expired", "asked.settled", "asked.barrier", "asked.who", "asked.second", "asked.reason"],
    nothing: "asked.deferrals.none",
    ask: () =>
      rows(deferrals(), (each) => [
        `${each.machine} (${each.job})`, `${checkWords(each.check)}, ${each.subject}`, moment(each.limit), yes(each.expired), yes(each.settled), each.barrier, each.by, each.second, each.reason,
      ]), // prettier-ignore
  },
  {
    question: "asked.after",
    needs: [],
    heads: ["asked.entry", "asked.came", "asked.kind", "asked.what", "asked.who", "asked.work", "asked.corrects"],
    nothing: "asked.after.none",
    ask: ({ job }) =>
      rows(afterSigning(job), (each) => [String(each.position), moment(each.received), each.kind.replaceAll("-", " "), each.about, each.by, yes(each.is_work), yes(each.corrects)]),
  },
  {
    question: "asked.nobody",
    needs: [],
    heads: ["asked.since", "asked.until", "asked.last", "asked.bare"],
    nothing: "asked.nobody.none",
    ask: ({ job }) => rows(nobody(job), (each) => [moment(each.since), each.until ? moment(each.until) : say("asked.now"), each.last, each.bare.join(", ")]),
  },
  {
    question: "asked.own",
    needs: [],
    heads: ["choose.job", "asked.what", "asked.decided", "asked.who", "asked.when", "asked.reason", "asked.doers"],
    nothing: "asked.own.none",
    ask: () =>
      rows(ownDecisions(), (each) => [
        `${each.machine} (${each.job})`, `${checkWords(each.check)}, ${each.subject}`, say(`decision.${each.decision === "rework" ? "rework" : each.decision === "defer" ? "defer" : each.decision === "clear" ? "clear" : "accept"}`), each.by, moment(each.at), each.reason, each.doers.join(", "),
      ]), // prettier-ignore
  },
  {
    question: "asked.whole",
    needs: [],
    heads: ["asked.said"],
    nothing: "asked.whole.none",
    ask: async ({ job }) => {
      const came = await getAudit(job);
      return "here" in came ? { here: [...came.here.faults, ...came.here.said].map((sentence) => [sentence]) } : came;
    },
  },
];
