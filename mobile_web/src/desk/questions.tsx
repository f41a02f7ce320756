import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getTorqueSheet, listJobs, type Job, type TorqueSheet } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";
import { arrived } from "./arrived";
import { ASKED, type Asked, type Given } from "./asked";
import { ChooseJob } from "./choose_job";
import { Table } from "./table";

/** The auditor's questions: each is answered by one press, from what stands filled in or what is put there. */
export function Questions({ about }: { readonly about: string }) {
  useTitle(say("desk.questions"));
  const [loaded, again] = useLoaded(listJobs);
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("desk.questions")}</h1>
      <Waiting loaded={loaded} what={say("desk.questions")} again={again}>
        {(jobs) => (jobs.length ? <OfJobs jobs={jobs} about={about} /> : <p>{say("jobs.none")}</p>)}
      </Waiting>
    </>
  );
}

function OfJobs({ jobs, about }: { readonly jobs: readonly Job[]; readonly about: string }) {
  const [job, setJob] = useState(about || (jobs[0]?.job ?? ""));
  return (
    <>
      <ChooseJob id="questions-job" jobs={jobs} chosen={job} choose={setJob} />
      <OfJob key={job} job={job} />
    </>
  );
}

function OfJob({ job }: { readonly job: string }) {
  const [loaded, again] = useLoaded(() => getTorqueSheet(job));
  return (
    <Waiting loaded={loaded} what={job} again={again}>
      {(sheet) => <List job={job} sheet={sheet} />}
    </Waiting>
  );
}

function List({ job, sheet }: { readonly job: string; readonly sheet: TorqueSheet }) {
  const sets = [...sheet.rows.map((row) => row.set), ...sheet.without_value];
  const wrenches = [...new Set(sheet.rows.flatMap((row) => row.stages.flatMap((stage) => stage.wrenches.map((each) => each.wrench))))];
  const [given, setGiven] = useState<Given>({ job, set: sets[0] ?? "", hole: "", wrench: wrenches[0] ?? "", since: "", until: "" });
  const put = (field: keyof Given) => (event: Event) => {
    const { value } = event.currentTarget as HTMLInputElement;
    setGiven((old) => ({ ...old, [field]: value }));
  };
  return (
    <>
      <fieldset class="given">
        <legend>{say("asked.about")}</legend>
        <Field name="set" given={given} put={put} options={sets} />
        <Field name="hole" given={given} put={put} type="number" />
        <Field name="wrench" given={given} put={put} options={wrenches} />
        <Field name="since" given={given} put={put} type="date" />
        <Field name="until" given={given} put={put} type="date" />
      </fieldset>
      <ul class="plain">
        {ASKED.map((asked) => (
          <li key={asked.question}>
            <Question asked={asked} given={given} />
          </li>
        ))}
      </ul>
    </>
  );
}

interface FieldProps {
  readonly name: Exclude<keyof Given, "job">;
  readonly given: Given;
  readonly put: (field: keyof Given) => (event: Event) => void;
  readonly type?: "text" | "number" | "date";
  readonly options?: readonly string[];
}

function Field({ name, given, put, type = "text", options = [] }: FieldProps) {
  return (
    <p class="field">
      <label for={`given-${name}`}>{say(`asked.${name}`)}</label>
      <input id={`given-${name}`} type={type} list={options.length ? `list-${name}` : undefined} min={type === "number" ? 1 : undefined} autocomplete="off" value={given[name]} onInput={put(name)} />
      {options.length > 0 && (
        <datalist id={`list-${name}`}>
          {options.map((option) => (
            <option key={option} value={option} />
          ))}
        </datalist>
      )}
    </p>
  );
}

function Question({ asked, given }: { readonly asked: Asked; readonly given: Given }) {
  const [rows, setRows] = useState<readonly (readonly string[])[] | null>(null);
  const [trouble, setTrouble] = useState("");
  const lacks = asked.needs.find((field) => !given[field].trim());
  const ask = async () => {
    if (lacks) return setTrouble(say("asked.lacks", { what: say(`asked.${lacks}`) }));
    const answer = await asked.ask(given);
    setTrouble("trouble" in answer ? answer.trouble : "");
    setRows("here" in answer ? answer.here : null);
  };
  return (
    <section class="card asked">
      <h2>{say(asked.question)}</h2>
      <button type="button" onClick={() => void ask()}>{say("asked.answer")}</button>
      <div aria-live="polite">
        {trouble && <p role="alert">{trouble}</p>}
        {rows && (rows.length ? <Table heads={asked.heads.map((head) => say(head))} rows={rows} /> : <p class="headline">{say(asked.nothing)}</p>)}
      </div>
    </section>
  );
}
