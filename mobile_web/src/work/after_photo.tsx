import { useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { LiveView } from "../parts/live_view";
import { usePicture } from "../pocket/pictures";
import type { PocketPhoto } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { say } from "../words/say";
import { pictured } from "./form";

interface Props {
  readonly hand: InHand;
  readonly before: PocketPhoto;
  readonly set: string;
  readonly done: () => void;
}

/** The after photo from the same place: the before photo lies over the live picture like a ghost. */
export function AfterPhoto({ hand, before, set, done }: Props) {
  const ghost = usePicture(before.sha256);
  const [shown, setShown] = useState(true);
  const take = async (shot: Shot) => {
    const added = { kind: "photo-added", ...(await pictured(shot)), shape: "after", element: set };
    if (await hand.record([added], say("after.said", { set }), shot)) done();
  };
  return (
    <LiveView scanner={null} seen={() => undefined} over={shown && ghost && <img class="ghost" src={ghost} alt={say("after.ghost")} />}>
      {(shutter, ready) => (
        <>
          <p>{say("after.how")}</p>
          <div class="actions">
            <button type="button" class="shutter" disabled={!ready} onClick={() => shutter((shot) => void take(shot))}>{say("after.take")}</button>
          </div>
          <div class="actions two">
            <button type="button" aria-pressed={shown} onClick={() => setShown(!shown)}>{say(shown ? "after.hide" : "after.show")}</button>
            <button type="button" onClick={done}>{say("work.leave")}</button>
          </div>
        </>
      )}
    </LiveView>
  );
}
