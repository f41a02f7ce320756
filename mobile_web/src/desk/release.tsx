import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getJob, type Job } from "../sync/api";
import { getReviewEnd, type ReviewEnd } from "../sync/desk";
import { useLoaded, type Loaded } from "../sync/loaded";
import { getRelease, type Release as Standing } from "../sync/release";
import { moment } from "../words/moment";
import { served } from "../words/served";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";
import { NotListed } from "./not_listed";
import { QuietPhones } from "./quiet_phones";
import { Papers } from "./papers";
import { CoverageLine, Decisions, NotChecked } from "./review_end";
import { SignForm } from "./sign_form";
import { TakeBack } from "./take_back";

/** The release of a job: what is in the way, the last question, the statement and its signing, and what came of it. */
export function Release({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.release")}`);
  const [loaded, again] = useLoaded(() => getRelease(job));
  const [end, askEnd] = useLoaded(() => getReviewEnd(job));
  const [head, askHead] = useLoaded(() => getJob(job));
  const changed = () => {
    again();
    askEnd();
    askHead();
  };
  const about = hereOf(head);
  return (
    <>
      <DeskJobHead job={job} here="release" known={about} />
      <Waiting loaded={loaded} what={say("desk.release")} again={again}>
        {(standing) => <Steps {...{ job, standing, changed }} head={about} end={hereOf(end)} />}
      </Waiting>
    </>
  );
}

function hereOf<T>(loaded: Loaded<T>): T | undefined {
  return loaded !== "waiting" && "here" in loaded ? loaded.here : undefined;
}

interface StepsProps {
  readonly job: string;
  readonly standing: Standing;
  readonly head: Job | undefined;
  readonly end: ReviewEnd | undefined;
  readonly changed: () => void;
}

function Steps({ job, standing, head, end, changed }: StepsProps) {
  const { released, state } = standing;
  return (
    <>
      {released && <Stands job={job} standing={standing} head={head} end={end} changed={changed} />}
      {state !== "released" && (
        <>
          <InTheWay standing={standing} />
          <QuietPhones job={job} />
          {state !== "no longer released" && <NotListed job={job} standing={standing} changed={changed} />}
          {state === "asked" && !isListed(head) && <SignForm job={job} standing={standing} changed={changed} />}
        </>
      )}
      {end && (
        <div class="end-cards">
          <CoverageLine coverage={end.coverage} />
          <Decisions decisions={end.decisions} />
          {end.not_checked.length > 0 && <NotChecked checks={end.not_checked} />}
        </div>
      )}
    </>
  );
}

/** Tell whether something stands on the list that stops a release or needs a word: then there is nothing to sign yet. */
function isListed(head: Job | undefined): boolean {
  return head !== undefined && head.counts.stop + head.counts.decide > 0;
}

/** What keeps anybody from signing, in sentences. */
function InTheWay({ standing }: { readonly standing: Standing }) {
  if (standing.in_the_way.length === 0) return null;
  return (
    <section class="card in-the-way">
      <h2>{say("release.way")}</h2>
      <ul>
        {standing.in_the_way.map((sentence) => (
          <li key={sentence}>{served(sentence, standing.forms)}</li>
        ))}
      </ul>
    </section>
  );
}

/** A release that was signed: in words what stood open then, and whether it still stands; no green page. */
function Stands({ job, standing, head, end, changed }: StepsProps) {
  const { released } = standing;
  if (!released) return null;
  const decided = end?.decisions.filter((each) => each.lifts).length ?? 0;
  return (
    <section class={released.no_longer ? "card fallen" : "card stands"}>
      <h2>
        {released.no_longer
          ? say("release.fallen")
          : say("release.stands", { open: head ? head.counts.stop + head.counts.decide : 0, decided: say("release.decisions", { n: decided }), unchecked: say("release.unchecked", { n: head?.not_checked.length ?? 0 }) })}
      </h2>
      {released.no_longer && <p role="alert">{released.no_longer}</p>}
      <p>
        {say("release.by", { by: released.by, when: moment(released.at) })}
        {released.second && <> {say("release.second.too", { second: released.second })}</>}
      </p>
      <blockquote>{released.statement}</blockquote>
      <p class="quiet">
        {say("release.signed", { head: released.head.slice(0, 16), key: released.public_key.slice(0, 16) })}
      </p>
      <Papers job={job} />
      <TakeBack job={job} changed={changed} />
    </section>
  );
}
