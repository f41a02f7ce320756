import { sight } from "../outbox/sight";
import { say } from "../words/say";
import { waitingWords } from "../words/waiting";

/** One line, on every screen, about what is not on the server yet; it stops nobody. */
export function OutboxLine() {
  const { refused, unreached } = sight.value;
  const waiting = waitingWords(sight.value);
  return (
    <div class="outbox" role="status">
      {waiting && <p>{waiting}</p>}
      {waiting && unreached && refused.length === 0 && <p class="quiet">{unreached}</p>}
      {refused.length > 0 && (
        <details>
          <summary>{say("outbox.refused", { n: refused.length })}</summary>
          <ul>
            {refused.map((reason, index) => (
              <li key={index}>{reason}</li>
            ))}
          </ul>
          <button type="button" onClick={() => void import("../outbox/here").then(async ({ outbox }) => (await outbox).again())}>
            {say("again")}
          </button>
        </details>
      )}
    </div>
  );
}
