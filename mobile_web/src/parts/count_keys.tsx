import { useState } from "preact/hooks";

import { withDigit } from "../draft/count";
import { say } from "../words/say";

interface Props {
  readonly chosen: (n: number) => void;
}

const AT_ONCE = 12;

/** A count by one tap up to twelve; more by digits. */
export function CountKeys({ chosen }: Props) {
  const [typing, setTyping] = useState<number | null>(null);
  const keys = Array.from({ length: AT_ONCE }, (_, index) => index + 1);
  return (
    <div class="pad" role="group" aria-label={say("bag.count")}>
      {typing === null &&
        keys.map((n) => (
          <button type="button" key={n} onClick={() => chosen(n)}>
            {n}
          </button>
        ))}
      {typing === null ? (
        <button type="button" class="wide" onClick={() => setTyping(0)}>
          {say("correct.more")}
        </button>
      ) : (
        <>
          <output aria-label={say("bag.count")}>{typing || "?"}</output>
          {[1, 2, 3, 4, 5, 6, 7, 8, 9, 0].map((digit) => (
            <button type="button" key={digit} onClick={() => setTyping(withDigit(typing, digit))}>
              {digit}
            </button>
          ))}
          <button type="button" class="wide" disabled={typing === 0} onClick={() => chosen(typing)}>
            {say("correct.take")}
          </button>
        </>
      )}
    </div>
  );
}
