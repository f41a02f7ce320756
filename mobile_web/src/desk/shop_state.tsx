import { useEffect } from "preact/hooks";

import { SeverityShape } from "../parts/severity";
import { getBackup, getReadings } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";
import { served } from "../words/served";

const AGAIN_MS = 30_000;

/** How old the last backup is, a warning where a person must look at it, and how many photos wait to be read. */
export function ShopState() {
  const [backup, backupAgain] = useLoaded(getBackup);
  const [readings, readingsAgain] = useLoaded(getReadings);
  useEffect(() => {
    const turn = setTimeout(() => {
      backupAgain();
      readingsAgain();
    }, AGAIN_MS);
    return () => clearTimeout(turn);
  }, [backup, readings]);
  if (backup === "waiting" || readings === "waiting") return <p class="shop-state" />;
  const needed = "here" in backup && backup.here.needs_a_person;
  return (
    <p class={needed ? "shop-state needed" : "shop-state"} role={needed ? "alert" : undefined}>
      {needed && (
        <strong class="severity decide">
          <SeverityShape severity="decide" />
          {say("shop.backup.look")}
        </strong>
      )}
      <span>{"here" in backup ? served(backup.here.sentence, backup.here.forms) : backup.trouble}</span>
      {"here" in readings && <span class="quiet">{served(readings.here.sentence, readings.here.forms)}</span>}
    </p>
  );
}
