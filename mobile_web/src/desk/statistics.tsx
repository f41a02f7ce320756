import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { listJobs, type Job } from "../sync/api";
import { shown } from "../scan/label_code";
import { useLoaded } from "../sync/loaded";
import { getReader, getStatistics, type JobStatistics, type ReaderHere } from "../sync/records";
import { say } from "../words/say";
import { served } from "../words/served";
import { arrived } from "./arrived";
import { ChooseJob } from "./choose_job";
import { Table } from "./table";

/** Statistics that help with the next job: by step and set, never by person; and how good the reader is here. */
export function Statistics({ about }: { readonly about: string }) {
  useTitle(say("desk.statistics"));
  const [loaded, again] = useLoaded(listJobs);
  const [reader, askReader] = useLoaded(getReader);
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("desk.statistics")}</h1>
      <p>{say("statistics.never")}</p>
      <Waiting loaded={loaded} what={say("desk.statistics")} again={again}>
        {(jobs) => (jobs.length ? <OfJobs jobs={jobs} about={about} /> : <p>{say("jobs.none")}</p>)}
      </Waiting>
      <Waiting loaded={reader} what={say("statistics.reader")} again={askReader}>
        {(found) => <Reader found={found} />}
      </Waiting>
    </>
  );
}

function OfJobs({ jobs, about }: { readonly jobs: readonly Job[]; readonly about: string }) {
  const [job, setJob] = useState(about || (jobs[0]?.job ?? ""));
  return (
    <section class="card">
      <ChooseJob id="statistics-job" jobs={jobs} chosen={job} choose={setJob} />
      <OfJob key={job} job={job} />
    </section>
  );
}

function OfJob({ job }: { readonly job: string }) {
  const [loaded, again] = useLoaded(() => getStatistics(job));
  return (
    <Waiting loaded={loaded} what={job} again={again}>
      {(found) => <Figures found={found} />}
    </Waiting>
  );
}

function Figures({ found }: { readonly found: JobStatistics }) {
  const { last, past, steps, troubles, rare } = found;
  const minutes = (value: number | null) => (value === null ? "–" : say("undo.n.minutes", { n: Math.round(value) }));
  return (
    <>
      <h2>{say("statistics.steps")}</h2>
      <p>{last ? say("statistics.beside", { last, n: past.length }) : say("statistics.first")}</p>
      {steps.length > 0 && (
        <Table
          heads={[say("statistics.step"), say("statistics.now"), say("statistics.before")]}
          rows={steps.map((step) => [step.step, minutes(step.minutes), minutes(step.before)])}
        />
      )}
      <h2>{say("statistics.trouble")}</h2>
      <Sentences sentences={troubles.map((each) => each.sentence)} nothing={say("statistics.trouble.none")} />
      {rare.length > 0 && (
        <details>
          <summary>{say("statistics.rare", { n: rare.length })}</summary>
          <Sentences sentences={rare.map((each) => each.sentence)} nothing="" />
        </details>
      )}
    </>
  );
}

function Sentences({ sentences, nothing }: { readonly sentences: readonly string[]; readonly nothing: string }) {
  if (sentences.length === 0) return <p>{nothing}</p>;
  return (
    <ul>
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}

function Reader({ found }: { readonly found: ReaderHere }) {
  return (
    <section class="card">
      <h2>{say("statistics.reader")}</h2>
      <p>{served(found.sentence, found.forms)}</p>
      {found.off.length > 0 && (
        <Table
          heads={[say("tray"), say("choose.job"), say("statistics.read"), say("statistics.counted")]}
          rows={found.off.map((each) => [shown(each.container), each.job, say("statistics.interval", { read: each.read, low: each.low, high: each.high }), String(each.counted)])}
        />
      )}
    </section>
  );
}
