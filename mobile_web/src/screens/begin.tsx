import { handPath } from "../hand/route";
import { practiceJob } from "../hand/practice_job";
import { HandTop } from "../parts/hand_top";
import { say } from "../words/say";
import { useState } from "preact/hooks";

/** The first ten minutes: labels or numbers by hand, the practice job, the first real one. */
export function Begin() {
  const [trouble, setTrouble] = useState<string | null>(null);
  return (
    <HandTop job={null} title={say("begin.title")}>
      <ol class="plain steps">
        <li class="card">
          <h2>{say("begin.labels")}</h2>
          <p>{say("begin.labels.how")}</p>
          <a class="button" href={handPath({ screen: "first", view: "print-labels" })}>
            {say("begin.labels.go")}
          </a>
        </li>
        <li class="card">
          <h2>{say("begin.practice")}</h2>
          <p>{say("begin.practice.how")}</p>
          <button type="button" onClick={() => void practiceJob().then(setTrouble)}>
            {say("begin.practice.go")}
          </button>
          {trouble && <p role="alert">{trouble}</p>}
        </li>
        <li class="card">
          <h2>{say("begin.job")}</h2>
          <p>{say("begin.job.how")}</p>
          <a class="button" href={handPath({ screen: "first", view: "new-job" })}>
            {say("begin.job.go")}
          </a>
        </li>
      </ol>
    </HandTop>
  );
}
