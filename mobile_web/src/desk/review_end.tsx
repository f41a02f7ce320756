import { pathOf } from "../route";
import { getReviewEnd, type ReviewEnd as End } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { checkWords } from "../words/check";
import { moment } from "../words/moment";
import { say } from "../words/say";

/** What comes after the findings: how far the record reaches, what was decided, what was not checked. */
export function ReviewEnd({ job, nothing = false }: { readonly job: string; readonly nothing?: boolean }) {
  const [loaded] = useLoaded(() => getReviewEnd(job));
  if (loaded === "waiting" || "trouble" in loaded) return null;
  const end = loaded.here;
  return (
    <div class="review-end">
      {nothing && <p class="headline">{say("headline.nothing")}.</p>}
      <CoverageLine coverage={end.coverage} />
      <Decisions decisions={end.decisions} />
      {end.not_checked.length > 0 && <NotChecked checks={end.not_checked} />}
      <a class="button main" href={pathOf({ screen: "review", view: "release", job, about: "" })}>
        {say("review.to.release")}
      </a>
    </div>
  );
}

/** Coverage in one sentence, with what each set lacks behind it. */
export function CoverageLine({ coverage }: { readonly coverage: End["coverage"] }) {
  const { sets, with_all: all, torque_known: torque, second_wanted: wanted, second_had: had } = coverage;
  return (
    <section class="card coverage">
      <h2>{say("coverage.title")}</h2>
      <p>{sets ? say("coverage.sentence", { all, sets, torque, had, wanted }) : say("coverage.none")}</p>
      {coverage.missing.length > 0 && (
        <details>
          <summary>{say("coverage.missing", { n: coverage.missing.length })}</summary>
          <ul>
            {coverage.missing.map(({ set, missing }) => (
              <li key={set}>
                {set}: {missing.map((lack) => say("coverage.no", { lack })).join(", ")}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** The lead's words so far, newest first; those that lift nothing are said to. */
export function Decisions({ decisions }: { readonly decisions: End["decisions"] }) {
  if (decisions.length === 0) return null;
  return (
    <section class="card">
      <h2>{say("decisions.title")}</h2>
      <ul class="plain decisions">
        {decisions.map((each) => (
          <li key={`${each.check}/${each.subject}`}>
            <strong>
              {say(`decision.${each.decision}`)}: {checkWords(each.check)}, {each.subject}
            </strong>{" "}
            {!each.lifts && <em>{say("decision.lifts.nothing")}</em>}
            <br />“{each.reason ?? say("decision.no.reason")}”
            {each.limit && <> · {say("decision.limit", { when: moment(each.limit) })}</>}
            {each.barrier && <> · {say("decision.barrier", { barrier: each.barrier })}</>}
            {each.second && <> · {say("decision.second", { second: each.second })}</>}
            {each.to && <> · {say("decision.to", { to: each.to })}</>}
            <br />
            <span class="quiet">
              {say("entry.by", { by: each.by, when: moment(each.at) })}
              {each.own_work && <> · {say("decision.own.work")}</>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The checks that did not run at this job's level; not run is not the same as nothing found. */
export function NotChecked({ checks }: { readonly checks: readonly string[] }) {
  return (
    <section class="card">
      <h2>{say("unchecked.title")}</h2>
      <p>{say("unchecked.why")}</p>
      <ul class="unchecked">
        {checks.map((check) => (
          <li key={check}>{checkWords(check)}</li>
        ))}
      </ul>
    </section>
  );
}
