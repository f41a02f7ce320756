import { say } from "../words/say";

interface Props {
  readonly press: (digit: number) => void;
  readonly clear: () => void;
}

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 0];

/** Big keys for a count. */
export function DigitPad({ press, clear }: Props) {
  return (
    <div class="pad" role="group" aria-label={say("bag.count")}>
      {DIGITS.map((digit) => (
        <button type="button" key={digit} onClick={() => press(digit)}>
          {digit}
        </button>
      ))}
      <button type="button" class="wide" onClick={clear}>
        {say("bag.clear")}
      </button>
    </div>
  );
}
