import { getJob, type Job } from "../sync/api";
import { useLive } from "../sync/loaded";
import { pathOf, type JobScreen } from "../route";
import { headline } from "../words/headline";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { HandLinks } from "./hand_links";
import { Waiting } from "./waiting";

const SCREENS: readonly JobScreen[] = ["findings", "containers", "photos", "torque", "entries"];

interface Props {
  readonly job: string;
  readonly here: JobScreen;
  readonly inside?: boolean;
}

/** The head of every screen of a job: which machine, what stands in the way, where else to look. */
export function JobHead({ job, here, inside = false }: Props) {
  const [loaded, again] = useLive(job, () => getJob(job));
  return (
    <header>
      <p class="up">
        <a href="/">{say("job.all")}</a>
      </p>
      <h1 tabIndex={-1}>{loaded !== "waiting" && "here" in loaded ? loaded.here.machine || job : job}</h1>
      <Waiting loaded={loaded} what={job} again={again}>
        {(known) => <About job={known} whole={here === "findings"} />}
      </Waiting>
      <p class="actions two">
        <a class="button main" href={pathOf({ screen: "work", job, view: "hub", about: "" })}>
          {say("nav.work")}
        </a>
        <a class="button" href={pathOf({ screen: "bag", job })}>
          {say("bag.title")}
        </a>
      </p>
      {here === "findings" && (
        <HandLinks job={job} practice={loaded !== "waiting" && "here" in loaded && loaded.here.practice} />
      )}
      <nav aria-label={say("nav.label")}>
        <ul class="tabs">
          {SCREENS.map((screen) => (
            <li key={screen}>
              <a href={pathOf({ screen, job })} aria-current={screen === here ? (inside ? "true" : "page") : undefined}>
                {say(`nav.${screen}`)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
    </header>
  );
}

function About({ job, whole }: { readonly job: Job; readonly whole: boolean }) {
  return (
    <>
      {whole && (
        <p class="title">
          {job.title} <span class="quiet">({job.job})</span>
        </p>
      )}
      <p class="headline">{headline(job.counts, job.not_checked.length)}</p>
      {whole && (
        <p class="quiet">
          {levelWords(job.level)} · {ownWord("state", job.state)} · {say("job.entries", { n: job.entries })}
          {job.last && <> · {say("job.last", { when: moment(job.last) })}</>}
        </p>
      )}
    </>
  );
}

function levelWords(level: number): string {
  return level === 1 || level === 2 || level === 3 ? say(`job.level.${level}`) : say("job.level", { level });
}
