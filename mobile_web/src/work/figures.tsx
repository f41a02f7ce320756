import { useState } from "preact/hooks";

import { withDigit } from "../draft/count";
import { number, point } from "../words/number";
import { say, type Message } from "../words/say";

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 0];

/** A whole number: the small ones take one tap, larger ones are put together on the pad. */
export function CountPad({ title, chosen }: { readonly title: Message; readonly chosen: (n: number) => void }) {
  const [count, setCount] = useState(0);
  return (
    <>
      <div class="pad" role="group" aria-label={say(title)}>
        {DIGITS.map((digit) => (
          <button type="button" key={digit} onClick={() => setCount(withDigit(count, digit))}>{digit}</button>
        ))}
        <button type="button" class="wide" onClick={() => setCount(0)}>{say("bag.clear")}</button>
      </div>
      <div class="actions">
        <button type="button" disabled={count === 0} onClick={() => chosen(count)}>{say("ask.record", { value: count || "?" })}</button>
      </div>
    </>
  );
}

interface AmountProps {
  readonly title: Message;
  readonly unit: string;
  readonly offered: readonly number[];
  readonly chosen: (value: number) => void;
}

/** A figure with a unit: likely ones take one tap; any other is put together on the pad, comma or point. */
export function AmountPad({ title, unit, offered, chosen }: AmountProps) {
  const [written, setWritten] = useState("");
  const [open, setOpen] = useState(offered.length === 0);
  const value = Number(written);
  const sound = written !== "" && Number.isFinite(value);
  return (
    <>
      {offered.length > 0 && (
        <div class="figures" role="group" aria-label={say(title)}>
          {offered.map((each) => (
            <button type="button" key={each} onClick={() => chosen(each)}>{number(each, 2)}<span class="unit"> {unit}</span></button>
          ))}
        </div>
      )}
      {!open && (
        <div class="actions">
          <button type="button" onClick={() => setOpen(true)}>{say("ask.another")}</button>
        </div>
      )}
      {open && (
        <>
          <div class="pad figure" role="group" aria-label={say("ask.another")}>
            {DIGITS.map((digit) => (
              <button type="button" key={digit} onClick={() => setWritten(written.length < 8 ? written + digit : written)}>{digit}</button>
            ))}
            <button type="button" class="mark" disabled={written.includes(".")} onClick={() => setWritten(`${written || "0"}.`)}>{point()}</button>
            <button type="button" class="clear" onClick={() => setWritten("")}>{say("bag.clear")}</button>
          </div>
          <div class="actions">
            <button type="button" disabled={!sound} onClick={() => chosen(value)}>{say("ask.record", { value: `${written ? written.replace(".", point()) : "?"} ${unit}` })}</button>
          </div>
        </>
      )}
    </>
  );
}
