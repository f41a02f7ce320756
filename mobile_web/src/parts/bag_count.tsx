import { useState } from "preact/hooks";

import type { Lot } from "../draft/bag";
import { withDigit } from "../draft/count";
import { liesAlready, newSpot, type Known } from "../draft/known";
import { shown } from "../scan/label_code";
import { PlacePins } from "../pins/place_pins";
import type { Spot } from "../pins/places";
import type { Overview } from "../pocket/use_overview";
import { useUnfinished } from "../sw/quiet";
import type { Taken } from "../sync/use_bagging";
import { say } from "../words/say";
import { DigitPad } from "./digit_pad";
import { focused } from "./focused";
import { PhotoMarks } from "./photo_marks";
import { useSteady } from "./steady";
import { useReading } from "./use_reading";

interface Props {
  readonly known: Known;
  readonly label: string;
  readonly taken: Taken;
  /** The photo of the machine on which the place is tapped; null where the job has none with marks. */
  readonly overview?: Overview | null;
  readonly chosen: (lot: Omit<Lot, "label">) => void;
  readonly again: () => void;
}

const AT_HAND = 3;

/** How many, and where they were: the picture's count stands there already, keys change it, one tap on the place ends it. */
export function BagCount({ known, label, taken, overview = null, chosen, again }: Props) {
  useUnfinished(true);
  const { picture, shot } = taken;
  const { looked, marks, setMarks, blurred, count: seen, sentence } = useReading(taken);
  const [typed, setTyped] = useState<number | null>(null);
  const [close, setClose] = useState(false);
  const count = typed ?? seen ?? 0;
  const [twice, setTwice] = useState<string | null>(null);
  const choose = (set: string, on: Spot | null = null) => chosen({ set, n: count, reading: looked, marks, spot: on });
  const ask = (set: string) => (liesAlready(known, label, set) ? setTwice(set) : choose(set));
  const place = (set: string) => (
    <button type="button" key={set} disabled={count === 0} onClick={() => ask(set)}>
      {set}
    </button>
  );
  const sets = useSteady(known.sets, String);
  const spot = newSpot(known, (zone, photo) => say("bag.near", { zone: zone ?? say("bag.near.machine"), photo }));
  if (close && marks && looked) {
    const done = () => {
      setTyped(null);
      setClose(false);
    };
    return <PhotoMarks picture={picture} size={shot} outlines={looked.outlines} marks={marks} change={setMarks} done={done} />;
  }
  return (
    <>
      <div class="counted">
        <button type="button" class="closer" disabled={!marks} onClick={() => setClose(true)} aria-label={say("marks.open")}>
          <img src={picture} alt={say("bag.photo.alt", { label: shown(label) })} />
        </button>
        <p class="label code" tabIndex={-1} ref={focused}>{shown(label)}</p>
        <output aria-label={say("bag.count")}>{count || "?"}</output>
      </div>
      {blurred && <p role="alert">{say("bag.blurred")}</p>}
      {looked?.warning && <p role="alert">{looked.warning}</p>}
      <p class="read" role="status">{sentence}</p>
      <DigitPad press={(digit) => setTyped(withDigit(typed ?? 0, digit))} clear={() => setTyped(0)} />
      {twice !== null && <Twice label={label} set={twice} n={count} add={() => choose(twice)} no={again} />}
      <h2>{say("bag.where")}</h2>
      {overview && <PlacePins {...overview} last={known.sets[0] ?? null} ready={count > 0} known={ask} fresh={(on) => choose(spot, on)} />}
      <div class="actions">
        {sets.slice(0, AT_HAND).map(place)}
        <button type="button" disabled={count === 0} onClick={() => choose(spot)}>
          {say("bag.new", { spot })}
        </button>
        {sets.length > AT_HAND && (
          <details>
            <summary>{say("bag.more", { n: sets.length - AT_HAND })}</summary>
            <div class="actions">{sets.slice(AT_HAND).map(place)}</div>
          </details>
        )}
        <button type="button" onClick={again}>
          {say("bag.again")}
        </button>
      </div>
    </>
  );
}

interface TwiceProps {
  readonly label: string;
  readonly set: string;
  readonly n: number;
  readonly add: () => void;
  readonly no: () => void;
}

/** Pieces of that set lie in that bag already: scanned twice, or more of them? One tap says. */
function Twice({ label, set, n, add, no }: TwiceProps) {
  return (
    <div role="alert">
      <p>{say("bag.twice", { set, label: shown(label) })}</p>
      <div class="actions two">
        <button type="button" ref={focused} onClick={no}>
          {say("bag.twice.no")}
        </button>
        <button type="button" onClick={add}>
          {say("bag.twice.add", { n })}
        </button>
      </div>
    </div>
  );
}
