import { broken, progress, sight } from "../outbox/sight";
import { say } from "../words/say";
import { waitingWords } from "../words/waiting";

const MUCH = 500_000_000;

/** One line, on every screen, about what is not on the server yet; it stops nobody. */
export function OutboxLine() {
  const { refused, unreached, bytes, held } = sight.value;
  const waiting = waitingWords(sight.value);
  const going = progress.value;
  return (
    <div class="outbox" role="status">
      {broken.value && <p>{broken.value}</p>}
      {waiting && (
        <p>
          {waiting} <a href="/phone">{say("outbox.see")}</a>
        </p>
      )}
      {waiting && going && <p class="quiet">{say("outbox.going", { share: Math.floor((100 * going.sent) / Math.max(1, going.of)) })}</p>}
      {waiting && !going && unreached && <p class="quiet">{unreached}</p>}
      {bytes > MUCH && <p>{say("outbox.much")}</p>}
      {held > 0 && (
        <p>
          {say("outbox.held", { n: held })} <a href="/phone">{say("outbox.see")}</a>
        </p>
      )}
      {refused.length > 0 && <p>{say("outbox.refused", { n: refused.length })}</p>}
    </div>
  );
}
