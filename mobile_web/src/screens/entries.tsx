import { useState } from "preact/hooks";

import { JobHead } from "../parts/job_head";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { listEntries, type Line, type Lines } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { say } from "../words/say";

/** The time line of one job: every entry, newest first, a page at a time. */
export function Entries({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("entries.title")}`);
  const [loaded, again] = useLoaded(() => listEntries(job, null));
  return (
    <>
      <JobHead job={job} here="entries" />
      <Waiting loaded={loaded} what={say("entries.title")} again={again}>
        {(first) => (first.total ? <TimeLine job={job} first={first} /> : <p class="headline">{say("entries.none")}</p>)}
      </Waiting>
    </>
  );
}

function TimeLine({ job, first }: { readonly job: string; readonly first: Lines }) {
  const [lines, setLines] = useState(first.lines);
  const [before, setBefore] = useState(first.before);
  const [trouble, setTrouble] = useState("");
  const [busy, setBusy] = useState(false);
  const more = async () => {
    setBusy(true);
    const answer = await listEntries(job, before);
    setBusy(false);
    if ("trouble" in answer) return setTrouble(answer.trouble);
    setTrouble("");
    setLines([...lines, ...answer.here.lines]);
    setBefore(answer.here.before);
  };
  return (
    <>
      <p class="quiet">{say("entries.newest")}</p>
      <ol class="plain timeline">
        {lines.map((line) => (
          <Entry key={line.position} line={line} />
        ))}
      </ol>
      {trouble && <p role="alert">{trouble}</p>}
      {before !== null && (
        <button type="button" disabled={busy} onClick={() => void more()}>
          {say(busy ? "entries.older.busy" : "entries.older")}
        </button>
      )}
    </>
  );
}

function Entry({ line }: { readonly line: Line }) {
  const { by, at, device, note } = line.entry;
  return (
    <li>
      <span class="what">{entrySentence(line.entry)}</span>
      {typeof note === "string" && note && <span class="note">“{note}”</span>}
      <span class="quiet">
        {say("entry.by", { by: String(by), when: moment(String(at)) })} · {say("entry.on", { device: String(device) })} ·{" "}
        {say("entry.number", { position: line.position })}
      </span>
    </li>
  );
}
