import { useState } from "preact/hooks";

import { phone } from "../outbox/sight";
import { Picture } from "../parts/photo_tile";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getHandover, recordAs, type HandoverSheet as Sheet } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { moment } from "../words/moment";
import { language } from "../words/language";
import { say } from "../words/say";
import { served } from "../words/served";
import { DeskJobHead } from "./job_head";

type Section = Sheet["sections"][number];
const TRAYS = 6;

/** The handover sheet on the screen, one page on paper: danger first, then what is half done, open, inside, apart. */
export function HandoverSheet({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.handover-sheet")}`);
  const [loaded, again] = useLoaded(() => getHandover(job));
  return (
    <>
      <DeskJobHead job={job} here="handover-sheet" />
      <Waiting loaded={loaded} what={say("desk.handover-sheet")} again={again}>
        {(sheet) => <Page job={job} sheet={sheet} again={again} />}
      </Waiting>
    </>
  );
}

function Page({ job, sheet, again }: { readonly job: string; readonly sheet: Sheet; readonly again: () => void }) {
  const [seen, setSeen] = useState<ReadonlySet<string>>(
    new Set(sheet.sections.flatMap((section) => section.lines.filter((line) => line.ticked).map((line) => line.subject))),
  );
  const tick = (name: string) => setSeen((old) => new Set(old.has(name) ? [...old].filter((each) => each !== name) : [...old, name]));
  return (
    <>
      <div class="tools no-print">
        <a class="button" href={`/api/jobs/${encodeURIComponent(job)}/handover.pdf?language=${language.value}`} target="_blank" rel="noopener">{say("handover.pdf")}</a>
        <button type="button" onClick={() => print()}>{say("handover.print")}</button>
      </div>
      <article class="sheet card">
        <header>
          <h2>{say("handover.of", { machine: sheet.machine, job: sheet.job })}</h2>
          <p>
            {sheet.title}
            {sheet.bay && <> · {say("handover.bay", { bay: sheet.bay })}</>}
            {sheet.time && <> · {moment(sheet.time)}</>}
          </p>
          <p>
            <strong>{say("handover.names", { giver: sheet.giver || "…………", taker: sheet.taker || "…………" })}</strong>
          </p>
        </header>
        <div class="sheet-sections">
          {sheet.sections.map((section) => (
            <SheetSection key={section.number} section={section} seen={seen} tick={sheet.offered ? tick : null} />
          ))}
        </div>
        <footer>
          <p class="quiet">
            {say("handover.sealed", { n: sheet.entries, head: sheet.head })} {sheet.unsent.map((each) => served(each, sheet.forms)).join(". ")}
          </p>
          <p class="quiet">{sheet.address}</p>
        </footer>
      </article>
      {sheet.offered && <TakeOver job={job} sheet={sheet} seen={seen} again={again} />}
      {sheet.accepted && <p class="headline">{say("handover.accepted", { taker: sheet.taker })}</p>}
    </>
  );
}

interface SectionProps {
  readonly section: Section;
  readonly seen: ReadonlySet<string>;
  readonly tick: ((name: string) => void) | null;
}

function SheetSection({ section, seen, tick }: SectionProps) {
  const isTrays = section.number === TRAYS;
  return (
    <section>
      <h3>
        {section.number}. {served(section.title)}
      </h3>
      {section.lines.length === 0 && <p>{served(section.nothing)}</p>}
      <ul class="plain">
        {section.lines.map((line) => (
          <li key={`${line.subject}/${line.text}`}>
            {line.ticked !== null && isTrays && tick ? (
              <label class="choice">
                <input type="checkbox" checked={seen.has(line.subject)} onChange={() => tick(line.subject)} /> {served(line.text, line.forms)}
              </label>
            ) : (
              <>
                {line.ticked !== null && <span class="tick">{line.ticked ? "☒" : "☐"} </span>}
                {served(line.text, line.forms)}
              </>
            )}
            {line.photos.length > 0 && (
              <span class="thumbs">
                {line.photos.map((photo) => (
                  <Picture key={photo.photo} photo={photo} ofMany />
                ))}
              </span>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface TakeProps {
  readonly job: string;
  readonly sheet: Sheet;
  readonly seen: ReadonlySet<string>;
  readonly again: () => void;
}

/** Taking over: who holds this desk says so, with the trays that were seen and what is disputed. */
function TakeOver({ job, sheet, seen, again }: TakeProps) {
  const [disputed, setDisputed] = useState("");
  const [trouble, setTrouble] = useState("");
  const me = phone.value?.by ?? "";
  const trays = sheet.sections.find((section) => section.number === TRAYS)?.lines.map((line) => line.subject) ?? [];
  const take = async (event: Event) => {
    event.preventDefault();
    if (me === sheet.giver) return setTrouble(say("handover.same"));
    const disputes = disputed.split("\n").map((line) => line.trim()).filter(Boolean);
    const containers = trays.filter((name) => seen.has(name));
    const failed = await recordAs(job, [{ kind: "handover-accepted", giver: sheet.giver, containers, disputed: disputes }]);
    if (failed) setTrouble(failed);
    else again();
  };
  return (
    <form class="card word no-print" onSubmit={(event) => void take(event)}>
      <h3>{say("handover.take", { me: me || say("review.somebody") })}</h3>
      <p>{say("handover.seen", { seen: trays.filter((name) => seen.has(name)).length, all: trays.length })}</p>
      <label for="disputed">{say("handover.disputed")}</label>
      <textarea id="disputed" rows={2} value={disputed} onInput={(event) => setDisputed(event.currentTarget.value)} />
      {trouble && <p role="alert">{trouble}</p>}
      <div class="tools">
        <button type="submit">{say("handover.take.go")}</button>
      </div>
    </form>
  );
}
