import { useState } from "preact/hooks";

import { putRight, reasonsFor, takenBack, trayField, type Reason } from "../draft/correct";
import { handPath } from "../hand/route";
import { phone } from "../outbox/sight";
import { pathOf } from "../route";
import { listContainers, type Answer } from "../sync/api";
import { loadBagging } from "../sync/bagging";
import { getResting, type Resting, type Witness } from "../sync/hand";
import { useUnfinished } from "../sw/quiet";
import { useLoaded } from "../sync/loaded";
import { useActs } from "../sync/use_acts";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { served } from "../words/served";
import { say } from "../words/say";
import { CountKeys } from "./count_keys";
import { SeverityMark } from "./severity";
import { UndoBar } from "./undo_bar";
import { Waiting } from "./waiting";

interface Props {
  readonly job: string;
  readonly entry: string;
}
type Draft = { readonly kind: string; readonly [field: string]: unknown };

const LEAST_REASON = 10;

/** One entry that is wrong: what rests on it, then why; it is taken back or put right, alone. */
export function CorrectOne({ job, entry }: Props) {
  const [loaded, again] = useLoaded(() => getResting(job, entry));
  return (
    <Waiting loaded={loaded} what={say("correct.entry")} again={again}>
      {(resting) => (resting.counts ? <Wrong job={job} resting={resting} /> : <Gone job={job} resting={resting} />)}
    </Waiting>
  );
}

function Gone({ job, resting }: { readonly job: string; readonly resting: Resting }) {
  return (
    <>
      <p class="headline">{entrySentence(resting.entry.recorded)}</p>
      <p>{say("correct.voided")}</p>
      <Back job={job} />
    </>
  );
}

function Back({ job }: { readonly job: string }) {
  return (
    <a class="button" href={handPath({ screen: "hand", view: "correct", job, about: "" })}>
      {say("correct.list")}
    </a>
  );
}

function Wrong({ job, resting }: { readonly job: string; readonly resting: Resting }) {
  const { act, understood, trouble } = useActs(job);
  const [reason, setReason] = useState<Reason | null>(null);
  const [words, setWords] = useState("");
  const [done, setDone] = useState(false);
  useUnfinished(!done && (reason !== null || words !== ""));
  const { entry, recorded, by } = resting.entry;
  const others = by !== phone.value?.by;
  const short = others && words.trim().length < LEAST_REASON;
  const why = (of: Reason) => (others ? words.trim() : say(`correct.reason.${of}`));
  const record = async (drafts: readonly Draft[], said: string) => {
    if (await act(drafts, said, { undone: () => setDone(false) })) setDone(true);
  };
  const sentence = entrySentence(recorded);
  const put = (fields: Record<string, unknown>, of: Reason, now: string) =>
    void record(putRight(entry, fields, why(of)), say("correct.said.put", { what: sentence, now }));
  return (
    <>
      <p class="headline">{sentence}</p>
      <p class="quiet">{say("entry.by", { by, when: moment(resting.entry.at) })}</p>
      <Rests job={job} resting={resting} />
      {!done && (
        <>
          {others && (
            <label class="own">
              {say("correct.others", { by })}
              <textarea rows={2} maxLength={500} value={words} onInput={(event) => setWords(event.currentTarget.value)} />
            </label>
          )}
          <h2>{say("correct.why")}</h2>
          <div class="actions">
            {reasonsFor(recorded).map((each) => (
              <button type="button" key={each} disabled={short} aria-pressed={reason === each} onClick={() => setReason(each)}>
                {say(`correct.reason.${each}`)}
              </button>
            ))}
          </div>
          {reason === "tray" && <OtherTray job={job} recorded={recorded} chosen={(fields, now) => put(fields, "tray", now)} />}
          {reason === "count" && <CountKeys chosen={(n) => put({ n }, "count", say("entry.pieces", { n }))} />}
          {reason === "place" && <OtherSet job={job} recorded={recorded} chosen={(set) => put({ set }, "place", set)} />}
          {reason && (
            <button
              type="button"
              class="shutter"
              disabled={short}
              onClick={() => void record(takenBack(entry, why(reason)), say("correct.said.void", { what: sentence }))}
            >
              {say("correct.void")}
            </button>
          )}
        </>
      )}
      {done && <Back job={job} />}
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
    </>
  );
}

function Rests({ job, resting }: { readonly job: string; readonly resting: Resting }) {
  const { later, would_come, would_go } = resting;
  return (
    <section class="card">
      <h2>{later.length ? say("correct.rests", { n: later.length }) : say("correct.rests.none")}</h2>
      {later.length > 0 && <p>{say("correct.rests.how")}</p>}
      <ul class="plain lines">
        {later.map((each) => (
          <Later key={each.entry} job={job} later={each} />
        ))}
      </ul>
      {would_come.length + would_go.length > 0 && <h3>{say("correct.list.without")}</h3>}
      <ul class="plain lines">
        {would_come.map((finding) => (
          <li key={finding.key}>
            <SeverityMark severity={finding.severity} /> {say("correct.would.come", { what: served(finding.sentence, finding.forms) })}
          </li>
        ))}
        {would_go.map((finding) => (
          <li key={finding.key}>{say("correct.would.go", { what: served(finding.sentence, finding.forms) })}</li>
        ))}
      </ul>
    </section>
  );
}

function Later({ job, later }: { readonly job: string; readonly later: Witness }) {
  return (
    <li>
      <span>
        {entrySentence(later.recorded)} <span class="quiet">{say("entry.by", { by: later.by, when: moment(later.at) })}</span>
      </span>
      <a class="button" href={handPath({ screen: "hand", view: "correct", job, about: later.entry })}>
        {say("correct.this.too")}
      </a>
    </li>
  );
}

interface OtherProps {
  readonly job: string;
  readonly recorded: Readonly<Record<string, unknown>>;
}

/** The bags and trays of the job: into which, or out of which, it really was. */
function OtherTray({ job, recorded, chosen }: OtherProps & { readonly chosen: (fields: Record<string, unknown>, now: string) => void }) {
  const [loaded, again] = useLoaded(() => listContainers(job));
  const field = trayField(recorded);
  return (
    <Waiting loaded={loaded} what={say("containers.title")} again={again}>
      {(containers) => (
        <div class="actions">
          {containers
            .filter(({ container }) => field !== null && container !== recorded[field])
            .map(({ container, label }) => (
              <button type="button" key={container} onClick={() => field && chosen({ [field]: container }, label ?? container)}>
                {label ?? container}
              </button>
            ))}
        </div>
      )}
    </Waiting>
  );
}

/** The sets of the job: where the pieces really were; the pin on the photo is moved on its own screen. */
function OtherSet({ job, recorded, chosen }: OtherProps & { readonly chosen: (set: string) => void }) {
  const [loaded, again] = useLoaded(async (): Promise<Answer<readonly string[]>> => ({ here: (await loadBagging(job)).known.sets }));
  return (
    <Waiting loaded={loaded} what={say("bag.where")} again={again}>
      {(sets) => (
        <div class="actions">
          {sets
            .filter((set) => set !== recorded["set"])
            .map((set) => (
              <button type="button" key={set} onClick={() => chosen(set)}>
                {set}
              </button>
            ))}
          <a class="button" href={pathOf({ screen: "photos", job })}>
            {say("correct.pin")}
          </a>
        </div>
      )}
    </Waiting>
  );
}
