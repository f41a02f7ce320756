import { phone } from "../outbox/sight";
import type { Pocket } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { say } from "../words/say";

/** Who was called away goes back three steps first; one tap says that it was done. */
export function Interrupted({ hand, pocket }: { readonly hand: InHand; readonly pocket: Pocket }) {
  const mine = pocket.interrupted.filter((each) => each.act.by === phone.value?.by);
  return (
    <>
      {mine.map(({ element }) => {
        const resumed = { kind: "work-resumed", element, went_back: 3, rechecked: true };
        return (
          <section key={element} class="read">
            <p>{say("work.resume", { name: element })}</p>
            <div class="actions">
              <button type="button" onClick={() => void hand.record([resumed], say("work.resumed", { name: element }))}>{say("work.resume.go")}</button>
            </div>
          </section>
        );
      })}
    </>
  );
}
