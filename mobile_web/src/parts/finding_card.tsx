import { pathOf } from "../route";
import type { Finding } from "../sync/api";
import { checkWords } from "../words/check";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { served } from "../words/served";
import { say } from "../words/say";
import { PhotoTile } from "./photo_tile";
import { SeverityMark } from "./severity";

interface Props {
  readonly job: string;
  readonly finding: Finding;
}

/** One finding: how grave, what is wrong, what to do now, and how it is known. */
export function FindingCard({ job, finding }: Props) {
  return (
    <article class={`card finding ${finding.severity}`}>
      <div>
        <SeverityMark severity={finding.severity} />
        <h2>
          {served(finding.sentence, finding.forms)}
        </h2>
        <p class="todo">
          <strong>{say("finding.todo")}:</strong> {served(finding.to_do, finding.forms)}
        </p>
        {finding.severity === "stop" && !finding.waivable && <p>{say("finding.never")}</p>}
        <p class="manual quiet">
          <a href={pathOf({ screen: "checks", check: finding.check })}>
            {say("finding.check", { check: checkWords(finding.check) })}
          </a>
        </p>
      </div>
      <Evidence job={job} finding={finding} />
    </article>
  );
}

function Evidence({ job, finding }: Props) {
  const none = finding.entries.length === 0 && finding.photos.length === 0;
  return (
    <section class="evidence">
      <h3>{say("finding.evidence")}</h3>
      {none && <p>{say("finding.no.evidence")}</p>}
      <ul class="plain">
        {finding.entries.map((entry) => (
          <li key={entry.entry}>
            {entrySentence(entry.recorded)}
            <br />
            <span class="quiet">{say("entry.by", { by: entry.by, when: moment(entry.at) })}</span>
          </li>
        ))}
      </ul>
      {finding.photos.length > 0 && (
        <div class="strip">
          {finding.photos.map((photo) => (
            <PhotoTile key={photo.photo} job={job} photo={photo} />
          ))}
        </div>
      )}
    </section>
  );
}
