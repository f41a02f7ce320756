import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listJobs, type Job } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { bringIn, type BroughtIn } from "../sync/records";
import { say, type Message } from "../words/say";
import { arrived } from "./arrived";
import { ChooseJob } from "./choose_job";

const OUT: readonly (readonly [string, Message])[] = [
  ["bundle.zip", "transfer.bundle"],
  ["bundle.zip?customer=true", "transfer.customer"],
  ["findings.csv", "transfer.findings"],
  ["torques.csv", "transfer.torques"],
  ["renewals.csv", "transfer.renewals"],
];

/** A job as one file, out to a customer or another shop and back in; its tables for a spreadsheet. */
export function Transfer({ about }: { readonly about: string }) {
  useTitle(say("desk.transfer"));
  const [loaded, again] = useLoaded(listJobs);
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("desk.transfer")}</h1>
      <div class="two-sides">
        <Waiting loaded={loaded} what={say("desk.transfer")} again={again}>
          {(jobs) => (jobs.length ? <Out jobs={jobs} about={about} /> : <p>{say("jobs.none")}</p>)}
        </Waiting>
        <In done={again} />
      </div>
    </>
  );
}

function Out({ jobs, about }: { readonly jobs: readonly Job[]; readonly about: string }) {
  const [job, setJob] = useState(about || (jobs[0]?.job ?? ""));
  return (
    <section class="card">
      <h2>{say("transfer.out")}</h2>
      <ChooseJob id="transfer-job" jobs={jobs} chosen={job} choose={setJob} />
      <p class="quiet">{say("transfer.what")}</p>
      <ul class="plain files">
        {OUT.map(([file, word]) => (
          <li key={file}>
            <a class="button" href={`/api/jobs/${encodeURIComponent(job)}/${file}`} download="">{say(word)}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function In({ done }: { readonly done: () => void }) {
  const [busy, setBusy] = useState("");
  const [trouble, setTrouble] = useState("");
  const [came, setCame] = useState<BroughtIn | null>(null);
  const take = async (event: Event) => {
    const box = event.currentTarget as HTMLInputElement;
    const file = box.files?.[0];
    if (!file) return;
    setBusy(say("transfer.busy", { file: file.name }));
    const answer = await bringIn(file);
    box.value = "";
    setBusy("");
    setTrouble("trouble" in answer ? answer.trouble : "");
    setCame("here" in answer ? answer.here : null);
    if ("here" in answer) done();
  };
  return (
    <section class="card">
      <h2>{say("transfer.in")}</h2>
      <p>{say("transfer.in.more")}</p>
      <p class="field">
        <label for="transfer-file">{say("transfer.file")}</label>
        <input id="transfer-file" type="file" accept=".zip,application/zip" onChange={(event) => void take(event)} />
      </p>
      <p role="status">{busy}</p>
      {trouble && <p role="alert">{trouble}</p>}
      {came && (
        <div>
          <p class="headline">{say("transfer.came", { job: came.job, entries: came.entries, photos: came.photos })}</p>
          {came.said.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <a class="button" href={pathOf({ screen: "review", view: "review", job: came.job, about: "" })}>{say("transfer.open")}</a>
        </div>
      )}
    </section>
  );
}
