import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";

import { practised, screwsBack, thrownAway, type Practised } from "../draft/practice";
import { waitingOf } from "../outbox/box";
import { outbox } from "../outbox/here";
import type { Draft } from "../outbox/outbox";
import { sight } from "../outbox/sight";
import { HandTop } from "../parts/hand_top";
import { SeverityMark } from "../parts/severity";
import { UndoBar } from "../parts/undo_bar";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listFindings, listNewest, type Answer, type Findings } from "../sync/api";
import { useChanges } from "../sync/live";
import { useLoaded } from "../sync/loaded";
import { useActs } from "../sync/use_acts";
import { headline } from "../words/headline";
import { served } from "../words/served";
import { say } from "../words/say";

interface Props {
  readonly job: string;
}
interface Now {
  readonly done: Practised;
  readonly findings: Findings | null;
}
type Record = (drafts: readonly Draft[], said: string) => void;

/** The practice job: real entries in a job that no list counts; three things go wrong, and are cured. */
export function Practice({ job }: Props) {
  return (
    <HandTop job={job} title={say("practice.title")}>
      <Practising job={job} />
    </HandTop>
  );
}

function Practising({ job }: Props) {
  const [loaded, again] = useLoaded(() => load(job));
  const { act, understood, trouble } = useActs(job);
  const { entries } = sight.value;
  useEffect(again, [entries]);
  useChanges(job, again);
  const record: Record = (drafts, said) => void act(drafts, said, { undone: again }).then(again);
  return (
    <>
      <p>{say("practice.how")}</p>
      <Waiting loaded={loaded} what={say("practice.title")} again={again}>
        {({ done, findings }) => (done.thrown ? <Over /> : <Steps job={job} done={done} findings={findings} record={record} />)}
      </Waiting>
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
    </>
  );
}

async function load(job: string): Promise<Answer<Now>> {
  const { box } = await outbox;
  const [lines, findings, waiting] = await Promise.all([listNewest(job), listFindings(job), waitingOf(box, job)]);
  const sent = "here" in lines ? lines.here.lines.map((line) => line.entry).reverse() : [];
  const known = new Set(sent.map((entry) => entry["id"]));
  const all = [...sent, ...waiting.filter((entry) => !known.has(entry.id))];
  return { here: { done: practised(all), findings: "here" in findings ? findings.here : null } };
}

/** What comes onto the list is what the practice is about: it is looked at, not scrolled for. */
function intoView(card: HTMLElement | null): void {
  card?.scrollIntoView({ block: "start" });
}

function Over() {
  return (
    <>
      <p class="headline">{say("practice.thrown")}</p>
      <a class="button main" href="/first/new-job">
        {say("begin.job.go")}
      </a>
    </>
  );
}

interface StepProps {
  readonly number: number;
  readonly what: string;
  readonly done: boolean;
  readonly children?: ComponentChildren;
}

function Step({ number, what, done, children }: StepProps) {
  return (
    <li class={done ? "card done" : "card"}>
      <h2>
        {number}. {what}
      </h2>
      {done && <p class="state">{say("practice.done")}</p>}
      {!done && children}
    </li>
  );
}

function Steps({ job, done, findings, record }: Props & Now & { readonly record: Record }) {
  const screw = say("practice.screw");
  const rag = say("practice.rag");
  const began = done.bagged !== null && done.loosened && done.ragIn;
  const act = (message: "loosen" | "rag" | "ask", drafts: readonly Draft[]) => (
    <button type="button" onClick={() => record(drafts, say(`practice.${message}.said`))}>
      {say(`practice.${message}.go`)}
    </button>
  );
  return (
    <ol class="plain steps">
      <Step number={1} what={say("practice.bag")} done={done.bagged !== null}>
        <p>{say("practice.bag.how")}</p>
        <a class="button" href={pathOf({ screen: "bag", job })}>
          {say("bag.title")}
        </a>
      </Step>
      <Step number={2} what={say("practice.loosen")} done={done.loosened}>
        {act("loosen", [{ kind: "fasteners-loosened", set: screw, holes: [1] }])}
      </Step>
      <Step number={3} what={say("practice.stuff")} done={done.ragIn}>
        {act("rag", [{ kind: "item-brought-in", item: rag, n: 1 }])}
      </Step>
      <Step number={4} what={say("practice.ask")} done={done.asked > 0}>
        {began ? act("ask", [{ kind: "release-asked" }]) : <p class="quiet">{say("practice.ask.later")}</p>}
      </Step>
      {done.asked > 0 && (
        <li class="card" ref={intoView}>
          <h2>{say("practice.list")}</h2>
          <OnTheList findings={findings} />
          <Cures done={done} record={record} screw={screw} rag={rag} />
        </li>
      )}
      {done.asked > 0 && (
        <li class="card">
          <h2>{say("practice.throw")}</h2>
          <p>{say("practice.throw.how")}</p>
          <button type="button" onClick={() => record(thrownAway(done.bound, say("practice.throw.reason")), say("practice.throw.said"))}>
            {say("practice.throw.go")}
          </button>
        </li>
      )}
    </ol>
  );
}

function OnTheList({ findings }: { readonly findings: Findings | null }) {
  if (!findings) return <p>{say("practice.list.offline")}</p>;
  const stops = findings.findings.filter((finding) => finding.severity !== "note");
  const stop = stops.filter((finding) => finding.severity === "stop").length;
  return (
    <>
      <p class="headline" role="status">
        {headline({ stop, decide: stops.length - stop, note: 0 }, 0)}
      </p>
      <ul class="plain lines">
        {stops.map((finding) => (
          <li key={finding.key}>
            <SeverityMark severity={finding.severity} />{" "}
            <strong>
              {served(finding.sentence, finding.forms)}
            </strong>{" "}
            {served(finding.to_do, finding.forms)}
          </li>
        ))}
      </ul>
    </>
  );
}

interface CureProps {
  readonly done: Practised;
  readonly record: Record;
  readonly screw: string;
  readonly rag: string;
}

function Cures({ done, record, screw, rag }: CureProps) {
  const { bagged } = done;
  return (
    <div class="actions">
      {bagged && !done.back && (
        <button type="button" onClick={() => record(screwsBack(bagged), say("practice.back.said", { n: bagged.n }))}>
          {say("practice.back", { n: bagged.n })}
        </button>
      )}
      {!done.tight && (
        <button type="button" onClick={() => record([{ kind: "fasteners-retightened", set: screw, holes: [1] }], say("practice.tight.said"))}>
          {say("practice.tight")}
        </button>
      )}
      {!done.ragOut && (
        <button type="button" onClick={() => record([{ kind: "item-taken-out", item: rag, n: 1 }], say("practice.out.said"))}>
          {say("practice.out")}
        </button>
      )}
    </div>
  );
}
