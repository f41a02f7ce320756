import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";

import { broken, progress, sight } from "../outbox/sight";
import { say } from "../words/say";
import { waitingWords } from "../words/waiting";

const MUCH = 500_000_000;
/** What goes over sooner than this was never seen to wait. */
const SOON_MS = 1500;

/** The screen on which a finger is at work; a screen just opened may show its top. */
let touched = "";
addEventListener("pointerdown", () => (touched = location.pathname), true);

/** One line, on every screen, about what is not on the server yet; it stops nobody. */
export function OutboxLine() {
  const { entries, photos, refused, unreached, bytes, held } = sight.value;
  const words = waitingWords(sight.value);
  const isLate = useLate(words !== null);
  const waiting = isLate || unreached ? words : null;
  const going = progress.value;
  return (
    <div class="outbox" role="status" data-waits={entries + photos} ref={useStill()}>
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

/** Tell whether something has lasted longer than a blink. */
function useLate(lasts: boolean): boolean {
  const [isLate, setLate] = useState(false);
  useEffect(() => {
    if (!lasts) return setLate(false);
    const timer = setTimeout(() => setLate(true), SOON_MS);
    return () => clearTimeout(timer);
  }, [lasts]);
  return isLate;
}

/** Keep what lies below a line that comes and goes where it is on the screen: nothing moves away under a finger. */
function useStill() {
  const line = useRef<HTMLDivElement>(null);
  const height = useRef(0);
  useLayoutEffect(() => {
    const now = line.current?.offsetHeight ?? 0;
    const by = now - height.current;
    height.current = now;
    // A browser that anchors its scrolling does this by itself, but never at the very top.
    if (by && touched === location.pathname && (scrollY === 0 || !CSS.supports("overflow-anchor", "auto"))) scrollBy({ top: by, behavior: "instant" });
  });
  return line;
}
