import type { Pocket } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { say } from "../words/say";

/** One tap, always in sight: what was in work stays marked as half done (practice 5.1). */
export function CalledAway({ hand, pocket }: { readonly hand: InHand; readonly pocket: Pocket }) {
  const [last] = pocket.sets.filter((set) => set.last !== null);
  const away = () => {
    const element = last?.set ?? say("work.away.nothing");
    const level = last?.left ? { level_reached: last.left.slice(0, 120) } : {};
    void hand.record([{ kind: "work-interrupted", element, ...level }], say("work.away.from", { name: element }));
  };
  return (
    <div class="actions away">
      <button type="button" onClick={away}>{say("work.away")}</button>
    </div>
  );
}
