import { useEffect } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listChecks, type CheckPage } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { checkWords } from "../words/check";
import { say } from "../words/say";

/** The manual of the checks, in the server's own words; an address with a check's name opens that one. */
export function Checks({ check }: { readonly check: string }) {
  useTitle(say("checks.title"));
  const [loaded, again] = useLoaded(listChecks);
  return (
    <>
      <header>
        <p class="up">
          <a href={pathOf({ screen: "jobs" })}>{say("job.all")}</a>
        </p>
        <h1 tabIndex={-1}>{say("checks.title")}</h1>
        <p>{say("checks.more")}</p>
      </header>
      <Waiting loaded={loaded} what={say("checks.title")} again={again}>
        {(pages) => <Manual pages={pages} check={check} />}
      </Waiting>
    </>
  );
}

function Manual({ pages, check }: { readonly pages: readonly CheckPage[]; readonly check: string }) {
  useEffect(() => document.getElementById(`check-${check}`)?.scrollIntoView(), [check]);
  return (
    <>
      {pages.map((page) => (
        <details class="card whole-set" id={`check-${page.name}`} key={page.name} open={page.name === check}>
          <summary>
            <h2>{checkWords(page.name)}</h2>
            <span>{page.title}</span>
          </summary>
          <dl class="facts">
            {facts(page).map(([term, words]) => (
              <div key={term}>
                <dt>{term}</dt>
                <dd>{words}</dd>
              </div>
            ))}
          </dl>
        </details>
      ))}
    </>
  );
}

function facts(page: CheckPage): (readonly [string, string])[] {
  return [
    [say("checks.finds"), page.finds],
    [say("checks.matters"), page.matters],
    [say("checks.example"), page.example],
    [say("checks.clear"), page.clear],
    [say("checks.silent"), page.silent],
    [say("checks.level"), say(page.level === 1 ? "job.level.1" : page.level === 2 ? "job.level.2" : "job.level.3")],
  ];
}
