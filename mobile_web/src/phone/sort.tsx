import { useEffect, useState } from "preact/hooks";

import "../styles/bag.css";
import { bound, containerOf } from "../draft/bag";
import { withDigit } from "../draft/count";
import { sortedAs, type Unsorted } from "../draft/sorting";
import { outbox } from "../outbox/here";
import { DigitPad } from "../parts/digit_pad";
import { useTitle } from "../parts/title";
import { TypedLabel } from "../parts/typed_label";
import { UndoBar, type Understood } from "../parts/undo_bar";
import { pathOf } from "../route";
import { shown } from "../scan/label_code";
import { useChanges } from "../sync/live";
import { useUnfinished } from "../sw/quiet";
import { loadSorting, pictureFor } from "../sync/sorting";
import { moment } from "../words/moment";
import { say } from "../words/say";
import { lotWords } from "../words/understood";

const GUESSES = 3;
type Sorting = Awaited<ReturnType<typeof loadSorting>>;

/** Sort what was shot with oily hands: the photo large, the count, three guesses for the place. */
export function Sort({ job }: { readonly job: string }) {
  useTitle(say("sort.title"));
  const [sorting, setSorting] = useState<Sorting | null>(null);
  const [understood, setUnderstood] = useState<Understood | null>(null);
  const load = () => void loadSorting(job).then(setSorting);
  useEffect(load, [job]);
  useChanges(job, load);
  const record = async (drafts: Parameters<Awaited<typeof outbox>["record"]>[1], sentence: string) => {
    const recorded = await (await outbox).record(job, drafts);
    const entries = "here" in recorded ? recorded.here : [];
    const back = entries.map((entry) => ({ kind: "entry-voided", entry: entry.id, reason: say("bag.undo.reason") }));
    const undo = () => void record(back, say("bag.undone", { what: sentence }));
    setUnderstood({ sentence, undo: back.length && drafts[0]?.kind !== "entry-voided" ? undo : null });
    load();
  };
  const [first] = sorting?.unsorted ?? [];
  return (
    <div class="bag sort">
      <p class="up">
        <a href={pathOf({ screen: "photos", job })}>{job}</a>
      </p>
      <h1 tabIndex={-1}>{say("sort.title")}</h1>
      {!sorting && <p role="status">{say("fetching", { what: say("sort.title") })}</p>}
      {sorting && !first && <p class="headline">{say("sort.none")}</p>}
      {sorting && first && <One key={first.photo} one={first} sorting={sorting} record={(drafts, sentence) => void record(drafts, sentence)} />}
      <UndoBar understood={understood} />
    </div>
  );
}

interface OneProps {
  readonly one: Unsorted;
  readonly sorting: Sorting;
  readonly record: (drafts: ReturnType<typeof sortedAs>, sentence: string) => void;
}

function One({ one, sorting, record }: OneProps) {
  const [picture, setPicture] = useState("");
  const [typed, setTyped] = useState<number | null>(null);
  const count = typed ?? one.n ?? 0;
  useEffect(() => void pictureFor(one.photo).then(setPicture), [one.photo]);
  const [written, setWritten] = useState<string | null>(null);
  useUnfinished(typed !== null || written !== null);
  const { known } = sorting;
  const label = one.label ?? one.container ?? written;
  const to = one.container ?? (label === null ? null : containerOf(label, known));
  const named = label === null ? say("sort.no.label") : shown(label);
  const sortInto = (set: string) => {
    if (to === null) return;
    const labelled = one.container === null && label !== null ? bound(label, known) : [];
    record([...labelled, ...sortedAs(one, { set, n: count, to, reason: say("sort.late") })], lotWords({ label: label ?? to, set, n: count }));
  };
  const reject = () =>
    record([{ kind: "photo-rejected", photo: one.photo, why: say("sort.reason") }], say("sort.rejected", { what: named }));
  const places = (sets: readonly string[]) =>
    sets.map((set) => (
      <button type="button" key={set} disabled={count === 0 || to === null} onClick={() => sortInto(set)}>
        {set}
      </button>
    ));
  return (
    <>
      <p>{`${say("sort.left", { n: sorting.unsorted.length })} · ${named} · ${moment(one.at)}`}</p>
      {picture && <img class="large" src={picture} alt={say("sort.photo.alt", { label: named })} />}
      <p class="label">
        {say("sort.count")} <output aria-label={say("sort.count")}>{count || ""}</output>
      </p>
      <DigitPad press={(digit) => setTyped(withDigit(typed ?? 0, digit))} clear={() => setTyped(0)} />
      {to === null && <p>{say("sort.needs.label")}</p>}
      {to === null && <TypedLabel known={known} chosen={setWritten} />}
      <h2>{say("sort.where")}</h2>
      <div class="actions">
        {places(known.sets.slice(0, GUESSES))}
        {known.sets.length > GUESSES && (
          <details>
            <summary>{say("bag.more", { n: known.sets.length - GUESSES })}</summary>
            <div class="actions">{places(known.sets.slice(GUESSES))}</div>
          </details>
        )}
        <button type="button" onClick={reject}>
          {say("sort.reject")}
        </button>
      </div>
    </>
  );
}
