import type { OnPhone } from "../pocket/shape";
import { clock } from "../words/clock";
import { say } from "../words/say";

/** One plain line: how old what is shown is, what of it nobody judged yet, and which judgments this phone makes. */
export function AsOf({ here }: { readonly here: OnPhone }) {
  const waiting = here.since.length;
  return (
    <details class="as-of">
      <summary>
        {say(here.trouble === null ? "work.asof.now" : "work.asof", { when: clock(here.at) })}
        {waiting > 0 && ` ${say("work.asof.since", { n: waiting })}`}
      </summary>
      {here.trouble && <p>{here.trouble}</p>}
      <p>{say("work.asof.more")}</p>
    </details>
  );
}
