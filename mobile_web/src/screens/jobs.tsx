import { pathOf } from "../route";
import { listJobs, type Job } from "../sync/api";
import { useLive } from "../sync/loaded";
import { Cautions } from "../parts/cautions";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { headline } from "../words/headline";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";

/** The list of jobs, each with what stands in its way. */
export function Jobs() {
  useTitle(say("jobs.title"));
  const [loaded, again] = useLive(null, listJobs);
  return (
    <>
      <header>
        <h1 tabIndex={-1}>{say("jobs.title")}</h1>
      </header>
      <Waiting loaded={loaded} what={say("jobs.title")} again={again}>
        {(jobs) => <List jobs={jobs.filter((job) => !job.practice)} />}
      </Waiting>
      <p class="actions two jobs-foot">
        <a class="button main" href="/first/new-job">{say("first.new")}</a>
        <a class="button" href="/first/print-labels">{say("first.labels")}</a>
      </p>
      <p class="actions">
        <a class="button" href="/first">{say("first.time")}</a>
      </p>
    </>
  );
}

function List({ jobs }: { readonly jobs: readonly Job[] }) {
  if (jobs.length === 0) return <None />;
  return (
    <>
      <ul class="plain cards">
        {jobs.map((job) => (
          <li key={job.job}>
            <a class="card whole" href={pathOf({ screen: "findings", job: job.job })}>
              <strong class="name">{job.machine || job.job}</strong>
              <span>
                {job.title} <span class="quiet">({job.job})</span>
              </span>
              <span class="headline">{headline(job.counts, job.not_checked.length)}</span>
              <span class="quiet">
                {say("job.level", { level: job.level })} · {ownWord("state", job.state)}
                {job.last && <> · {say("job.last", { when: moment(job.last) })}</>}
              </span>
            </a>
          </li>
        ))}
      </ul>
      <Cautions messages={["caution.list"]} />
    </>
  );
}

function None() {
  return (
    <>
      <p class="headline">{say("jobs.none")}</p>
      <p>{say("jobs.none.hand")}</p>
    </>
  );
}
