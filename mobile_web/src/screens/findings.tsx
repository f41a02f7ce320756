import { Cautions } from "../parts/cautions";
import { FindingCard } from "../parts/finding_card";
import { JobHead } from "../parts/job_head";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { listFindings, type Findings as Found } from "../sync/api";
import { useLive } from "../sync/loaded";
import { cautionsFor } from "../words/cautions";
import { checkWords } from "../words/check";
import { say } from "../words/say";

/** What is on the list of one job, worst first. */
export function Findings({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("nav.findings")}`);
  const [loaded, again] = useLive(job, () => listFindings(job));
  return (
    <>
      <JobHead job={job} here="findings" />
      <Waiting loaded={loaded} what={say("nav.findings")} again={again}>
        {(found) => <List job={job} found={found} />}
      </Waiting>
    </>
  );
}

function List({ job, found }: { readonly job: string; readonly found: Found }) {
  return (
    <>
      {found.findings.length === 0 && <p class="headline">{say("headline.nothing")}.</p>}
      {found.findings.map((finding) => (
        <FindingCard key={finding.key} job={job} finding={finding} />
      ))}
      <Cautions messages={cautionsFor(found.findings)} />
      {found.not_checked.length > 0 && <NotChecked checks={found.not_checked} />}
    </>
  );
}

function NotChecked({ checks }: { readonly checks: readonly string[] }) {
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
