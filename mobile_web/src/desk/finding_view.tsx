import type { ComponentChildren } from "preact";

import { SeverityMark } from "../parts/severity";
import { pathOf } from "../route";
import type { DeskFinding } from "../sync/desk";
import { checkWords } from "../words/check";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { served } from "../words/served";
import { say } from "../words/say";
import { Cure } from "./cure";
import { GradeMark } from "./grade";
import { UndoView } from "./undo_view";

interface Props {
  readonly job: string;
  readonly found: DeskFinding;
  readonly place: string;
  /** The pair of photos, and the buttons with what they open. */
  readonly pair: ComponentChildren;
  readonly acts: ComponentChildren;
}

/** One finding whole: its sentence, its photos, what clears it, how it is known, what must come off again. */
export function FindingView({ job, found, place, pair, acts }: Props) {
  const { finding } = found;
  return (
    <article class={`card one-finding ${finding.severity}`} aria-label={served(finding.sentence, finding.forms)}>
      <p class="of">
        <SeverityMark severity={finding.severity} /> <span class="quiet">{place}</span>
      </p>
      <h2 tabIndex={-1}>{served(finding.sentence, finding.forms)}</h2>
      <p class="todo">
        <strong>{say("finding.todo")}:</strong> {served(finding.to_do, finding.forms)}
      </p>
      {finding.severity === "stop" && !finding.waivable && <p class="never">{say("finding.never")}</p>}
      <SentBack found={found} />
      {acts}
      {pair}
      <div class="beside-pair">
        <Evidence found={found} />
        <div>
          <Cure check={finding.check} />
          {found.on_map && <UndoView job={job} element={finding.subject} />}
          <p class="manual">
            <a href={pathOf({ screen: "checks", check: finding.check })}>{say("finding.check", { check: checkWords(finding.check) })}</a>
          </p>
        </div>
      </div>
    </article>
  );
}

function SentBack({ found }: { readonly found: DeskFinding }) {
  const back = found.sent_back;
  if (!back) return null;
  return (
    <p class="sent-back">
      {say("review.sent.back", { to: back.to ?? say("review.somebody"), by: back.by, when: moment(back.at) })}
      {back.reason && <> “{back.reason}”</>}
    </p>
  );
}

function Evidence({ found }: { readonly found: DeskFinding }) {
  const { entries, photos } = found.finding;
  return (
    <section>
      <h3>{say("finding.evidence")}</h3>
      {entries.length === 0 && photos.length === 0 && <p>{say("finding.no.evidence")}</p>}
      <ul class="plain known">
        {entries.map((entry, index) => (
          <li key={entry.entry}>
            {entrySentence(entry.recorded)}
            <br />
            <span class="quiet">{say("entry.by", { by: entry.by, when: moment(entry.at) })}</span> <GradeMark grade={found.grades[index] ?? 0} />
          </li>
        ))}
      </ul>
    </section>
  );
}
