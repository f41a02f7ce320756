import { useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { LiveView } from "../parts/live_view";
import type { Pocket, PocketContainer } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { piecesWords } from "../words/container";
import { say } from "../words/say";
import { pictured } from "./form";

/** The bags that fed a set: what is left in them by the record, and looked and felt empty with a photo. */
export function Emptied({ hand, pocket, set }: { readonly hand: InHand; readonly pocket: Pocket; readonly set: string }) {
  const [open, setOpen] = useState<string | null>(null);
  const fed = pocket.containers.filter((each) => each.kind !== "place" && each.looked_empty === null && isFed(each, set));
  if (!fed.length) return null;
  const record = async (container: PocketContainer, shot: Shot | null) => {
    const photo = shot && { kind: "photo-added", ...(await pictured(shot)), shape: "tray", container: container.container };
    const emptied = { kind: "container-emptied", container: container.container, ...(photo ? { photos: [photo.photo] } : {}) };
    const said = say("said.emptied", { label: container.shown ?? container.container });
    if (await hand.record(photo ? [photo, emptied] : [emptied], said, shot ?? undefined)) setOpen(null);
  };
  return (
    <>
      {fed.map((each) => (
        <section key={each.container}>
          {each.n > 0 ? (
            <p>{say("emptied.left", { label: each.shown ?? each.container, what: each.contents.map(piecesWords).join(", ") })}</p>
          ) : open === each.container ? (
            <LiveView scanner={null} seen={() => undefined}>
              {(shutter, ready) => (
                <div class="actions">
                  <button type="button" class="shutter" disabled={!ready} onClick={() => shutter((shot) => void record(each, shot))}>{say("emptied.photo")}</button>
                  <button type="button" onClick={() => void record(each, null)}>{say("emptied.plain")}</button>
                  <button type="button" onClick={() => setOpen(null)}>{say("work.leave")}</button>
                </div>
              )}
            </LiveView>
          ) : (
            <div class="actions">
              <button type="button" onClick={() => setOpen(each.container)}>{say("emptied.go", { label: each.shown ?? each.container })}</button>
            </div>
          )}
        </section>
      ))}
    </>
  );
}

const TAKING = new Set(["fasteners-fitted", "fasteners-moved", "thing-lost"]);

/** Tell whether a bag holds pieces of the set, or gave the last of what was in it to a fitting. */
function isFed(container: PocketContainer, set: string): boolean {
  return container.contents.some((each) => each.set === set) || (container.n === 0 && TAKING.has(container.last?.kind ?? ""));
}
