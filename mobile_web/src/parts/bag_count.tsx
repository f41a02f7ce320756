import { useState } from "preact/hooks";

import { withDigit } from "../draft/count";
import { newSpot, type Known } from "../draft/known";
import { shown } from "../scan/label_code";
import { say } from "../words/say";
import { focused } from "./focused";

interface Props {
  readonly known: Known;
  readonly label: string;
  readonly picture: string;
  readonly chosen: (set: string, n: number) => void;
  readonly again: () => void;
}

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 0];
const AT_HAND = 3;

/** How many, and where they were: the count on big keys, then one tap on the place. */
export function BagCount({ known, label, picture, chosen, again }: Props) {
  const [count, setCount] = useState(0);
  const place = (set: string) => (
    <button type="button" key={set} disabled={count === 0} onClick={() => chosen(set, count)}>
      {set}
    </button>
  );
  const spot = newSpot(known, (zone, photo) => say("bag.near", { zone: zone ?? say("bag.near.machine"), photo }));
  return (
    <>
      <div class="counted">
        <img src={picture} alt={say("bag.photo.alt", { label: shown(label) })} />
        <p class="label code" tabIndex={-1} ref={focused}>{shown(label)}</p>
        <output aria-label={say("bag.count")}>{count || "?"}</output>
      </div>
      <div class="pad" role="group" aria-label={say("bag.count")}>
        {DIGITS.map((digit) => (
          <button type="button" key={digit} onClick={() => setCount(withDigit(count, digit))}>
            {digit}
          </button>
        ))}
        <button type="button" class="wide" onClick={() => setCount(0)}>
          {say("bag.clear")}
        </button>
      </div>
      <h2>{say("bag.where")}</h2>
      <div class="actions">
        {known.sets.slice(0, AT_HAND).map(place)}
        <button type="button" disabled={count === 0} onClick={() => chosen(spot, count)}>
          {say("bag.new", { spot })}
        </button>
        {known.sets.length > AT_HAND && (
          <details>
            <summary>{say("bag.more", { n: known.sets.length - AT_HAND })}</summary>
            <div class="actions">{known.sets.slice(AT_HAND).map(place)}</div>
          </details>
        )}
        <button type="button" onClick={again}>
          {say("bag.again")}
        </button>
      </div>
    </>
  );
}
