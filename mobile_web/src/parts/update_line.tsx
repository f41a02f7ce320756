import { useEffect } from "preact/hooks";

import { update, updated } from "../sw/here";
import { unfinished } from "../sw/quiet";
import { say } from "../words/say";

const SAID_MS = 15_000;

/** Offer the new page when one is ready, once nothing begun would be lost; say when it was taken. */
export function UpdateLine() {
  const take = update.value;
  useEffect(() => {
    const timer = setTimeout(() => (updated.value = false), SAID_MS);
    return () => clearTimeout(timer);
  }, []);
  return (
    <div class="update" role="status">
      {updated.value && <p>{say("update.done")}</p>}
      {take && unfinished.value > 0 && <p>{say("update.waits")}</p>}
      {take && unfinished.value === 0 && (
        <button type="button" onClick={take}>
          {say("update.ready")}
        </button>
      )}
    </div>
  );
}
