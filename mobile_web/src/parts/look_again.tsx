import type { Shot } from "../camera/camera";
import { lookedAgain, triedAgain } from "../draft/looks";
import type { PocketSet } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { useUnfinished } from "../sw/quiet";
import { say } from "../words/say";
import { pictured } from "../work/form";
import { focused } from "./focused";
import { LiveView } from "./live_view";

interface Props {
  readonly hand: InHand;
  readonly set: PocketSet;
  readonly done: () => void;
}

/** Whoever did the work looks at it again: the torque is tried again, or a photo taken from another angle, for eyes that saw it once see it the same way. */
export function LookAgain({ hand, set, done }: Props) {
  useUnfinished(true);
  const photo = async (shot: Shot) => {
    if (await hand.record(lookedAgain(set.set, await pictured(shot)), say("looks.said.photo", { set: set.set }), shot)) done();
  };
  const torque = async () => {
    if (await hand.record(triedAgain(set.set), say("looks.said.torque", { set: set.set }))) done();
  };
  return (
    <article class="card look-again">
      <h3 tabIndex={-1} ref={focused}>{set.set}</h3>
      <p>{say("looks.again.how")}</p>
      <LiveView scanner={null} seen={() => undefined}>
        {(shutter, ready) => (
          <div class="actions">
            <button type="button" class="shutter" disabled={!ready} onClick={() => shutter((shot) => void photo(shot))}>{say("looks.again.photo")}</button>
            {set.torque && <button type="button" onClick={() => void torque()}>{say("looks.again.torque", { n: set.n })}</button>}
            <button type="button" onClick={done}>{say("looks.again.leave")}</button>
          </div>
        )}
      </LiveView>
      <p class="quiet">{say("looks.again.when")}</p>
    </article>
  );
}
