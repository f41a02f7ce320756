import { useState } from "preact/hooks";

import { jobName, opened } from "../draft/job";
import { ending } from "../hand/practice_job";
import { outbox } from "../outbox/here";
import { MeterField } from "../parts/meter_field";
import { HandTop } from "../parts/hand_top";
import { goTo } from "../place";
import { listJobs, type Job } from "../sync/api";
import { kept } from "../sync/hand";
import { useUnfinished } from "../sw/quiet";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";

const LEVELS = [1, 2, 3] as const;
const SHOWN = 6;

/** A new job: the machine's name, go. All else is asked when it is first needed. */
export function NewJob() {
  const [machine, setMachine] = useState("");
  const [title, setTitle] = useState("");
  const [meter, setMeter] = useState("");
  const [level, setLevel] = useState<number>(2);
  useUnfinished(machine !== "");
  const [trouble, setTrouble] = useState<string | null>(null);
  const [known] = useLoaded(() => kept<Job[]>("jobs", listJobs()));
  const machines = known !== "waiting" && "here" in known ? machinesOf(known.here.here) : [];
  const go = async (name: string) => {
    if (!name.trim()) return setTrouble(say("new.no.name"));
    const job = jobName(name, ending());
    const recorded = await (await outbox).record(job, opened(name.trim(), title || say("new.work"), level, { meter }));
    if ("trouble" in recorded) return setTrouble(say("bag.not.kept", { reason: recorded.trouble }));
    return goTo({ screen: "bag", job });
  };
  const submit = (event: Event) => {
    event.preventDefault();
    void go(machine);
  };
  return (
    <HandTop job={null} title={say("new.title")}>
      <form class="measure" onSubmit={submit}>
        <label>
          {say("new.machine")}
          <input autocomplete="off" maxLength={120} value={machine} onInput={(event) => setMachine(event.currentTarget.value)} />
        </label>
        <MeterField value={meter} typed={setMeter} />
        <details>
          <summary>{say("new.more")}</summary>
          <label>
            {say("new.what")}
            <input autocomplete="off" maxLength={60} value={title} onInput={(event) => setTitle(event.currentTarget.value)} />
          </label>
          <div class="ways" role="group" aria-label={say("new.level")}>
            {LEVELS.map((each) => (
              <button type="button" key={each} aria-pressed={each === level} onClick={() => setLevel(each)}>
                {say(`job.level.${each}`)}
              </button>
            ))}
          </div>
        </details>
        {trouble && <p role="alert">{trouble}</p>}
        <button type="submit" class="shutter">
          {say("new.go")}
        </button>
      </form>
      {machines.length > 0 && (
        <section>
          <h2>{say("new.known")}</h2>
          <div class="actions">
            {machines.map((name) => (
              <button type="button" key={name} onClick={() => void go(name)}>
                {name}
              </button>
            ))}
          </div>
        </section>
      )}
    </HandTop>
  );
}

function machinesOf(jobs: readonly Job[]): readonly string[] {
  const real = jobs.filter((job) => !job.practice && job.machine);
  return [...new Set(real.map((job) => job.machine))].slice(0, SHOWN);
}
