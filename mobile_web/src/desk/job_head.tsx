import type { ComponentChildren } from "preact";

import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { getJob, type Job } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { headline } from "../words/headline";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { arrived } from "./arrived";
import { REVIEW_VIEWS, type ReviewView } from "./route";

interface Props {
  readonly job: string;
  readonly here: ReviewView;
  /** What the screen knows better by now: the head of the job as last answered. */
  readonly known?: Job | undefined;
  readonly children?: ComponentChildren;
}

/** The head of every screen about one job: which machine, what stands in the way, what else there is to look at. */
export function DeskJobHead({ job, here, known, children }: Props) {
  const [loaded, again] = useLoaded(() => getJob(job));
  const shown = known ? { here: known } : loaded;
  const machine = shown !== "waiting" && "here" in shown ? shown.here.machine || job : job;
  return (
    <header class="desk-job">
      <div>
        <h1 tabIndex={-1} ref={arrived}>{machine}</h1>
        <Waiting loaded={shown} what={job} again={again}>
          {(about) => <About job={about} />}
        </Waiting>
      </div>
      {children}
      <nav aria-label={say("nav.label")}>
        <ul class="desk-views plain">
          {REVIEW_VIEWS.map((view) => (
            <li key={view}>
              <a href={pathOf({ screen: "review", view, job, about: "" })} aria-current={view === here ? "page" : undefined}>
                {say(`desk.${view}`)}
              </a>
            </li>
          ))}
          <li>
            <a href={pathOf({ screen: "findings", job })}>{say("desk.plain")}</a>
          </li>
        </ul>
      </nav>
    </header>
  );
}

function About({ job }: { readonly job: Job }) {
  return (
    <p class="about">
      <span class="headline">{headline(job.counts, job.not_checked.length)}</span>{" "}
      <span class="quiet">
        {job.title} ({job.job}) · {say("job.level", { level: job.level })} · {say("board.state", { state: ownWord("state", job.state) })}
        {job.last && <> · {say("job.last", { when: moment(job.last) })}</>}
      </span>
    </p>
  );
}
