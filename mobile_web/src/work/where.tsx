import { useState } from "preact/hooks";

import { PhotoPins } from "../pins/photo_pins";
import { photosFor } from "../pins/which_photo";
import { sharesOf, type Size } from "../pins/view";
import type { OnPhone, Pin, PocketPhoto, PocketSet } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { say } from "../words/say";
import { AfterPhoto } from "./after_photo";
import { Frame } from "./frame";

interface Props {
  readonly job: string;
  readonly about: string;
}

/** Where were they? The holes of a set, numbered on the photo of the machine; placed and moved with one tap each. */
export function Where({ job, about }: Props) {
  return (
    <Frame job={job} title={say("where.title", { set: about })} up={{ screen: "work", job, view: "hub", about: "" }} upName={say("work.title")}>
      {(hand, here) => <Holes hand={hand} here={here} set={about} />}
    </Frame>
  );
}

function Holes({ hand, here, set }: { readonly hand: InHand; readonly here: OnPhone; readonly set: string }) {
  const { pocket } = here;
  const found = pocket.sets.find((each) => each.set === set);
  const photos = found ? photosFor(pocket, found) : [];
  const [at, setAt] = useState<string | null>(null);
  const [after, setAfter] = useState(false);
  const photo = photos.find((each) => each.photo === at) ?? photos[0];
  if (!found) return <p>{say("back.missing", { set })}</p>;
  if (!photo) return <p class="headline">{say("where.no.photo")}</p>;
  if (after) return <AfterPhoto hand={hand} before={photo} set={set} done={() => setAfter(false)} />;
  const other = () => setAt(photos[(photos.indexOf(photo) + 1) % photos.length]?.photo ?? null);
  return (
    <>
      <Marking key={photo.photo} hand={hand} here={here} photo={photo} set={found} />
      <div class="actions two">
        {photos.length > 1 && <button type="button" onClick={other}>{say("where.another")}</button>}
        <button type="button" onClick={() => setAfter(true)}>{say("where.after")}</button>
      </div>
    </>
  );
}

interface MarkingProps {
  readonly hand: InHand;
  readonly here: OnPhone;
  readonly photo: PocketPhoto;
  readonly set: PocketSet;
}

/** Tap the photo to mark the hole that is chosen; the next one without a mark is chosen by itself. */
function Marking({ hand, here, photo, set }: MarkingProps) {
  const pins = new Map(photo.pins.filter((pin) => pin.element === set.set && pin.hole !== null).map((pin) => [pin.hole as number, pin]));
  const numbers = Array.from({ length: Math.max(set.n, 1, ...pins.keys()) }, (_, index) => index + 1);
  const [picked, setPicked] = useState<number | null>(null);
  const unmarked = numbers.find((hole) => !pins.has(hole)) ?? null;
  const hole = picked ?? unmarked;
  const tapped = (x: number, y: number, size: Size) => {
    if (hole === null) return;
    void mark(hand, photo, set.set, { hole, pin: pins.get(hole), ...sharesOf({ x, y }, size) });
    setPicked(null);
  };
  const away = (pin: Pin) => {
    void hand.record([{ kind: "entry-voided", entry: pin.entry, reason: say("where.away.reason") }], say("where.away.said", { hole: pin.hole ?? 0, set: set.set }));
    setPicked(null);
  };
  const pin = picked === null ? undefined : pins.get(picked);
  return (
    <>
      <p class="label" role="status">{hole === null ? say("where.all", { set: set.set }) : say(pins.has(hole) ? "where.move" : "where.mark", { hole })}</p>
      <PhotoPins pocket={here.pocket} photo={photo} set={set.set} tapped={tapped} chosen={hole} />
      <ul class="pin-list" aria-label={say("where.list")}>
        {numbers.map((number) => (
          <li key={number}>
            <button type="button" aria-pressed={number === hole} onClick={() => setPicked(number)}>
              {number}
              <span class="hint">{say(pins.has(number) ? "where.marked" : "where.unmarked")}</span>
            </button>
          </li>
        ))}
      </ul>
      {pin && (
        <div class="actions">
          <button type="button" onClick={() => away(pin)}>{say("where.away", { hole: pin.hole ?? 0 })}</button>
        </div>
      )}
    </>
  );
}

interface Marked {
  readonly hole: number;
  readonly pin: Pin | undefined;
  readonly x: number;
  readonly y: number;
}

/** A mark is an entry; moved, it is that entry with other figures, so that what was first said stays readable. */
function mark(hand: InHand, photo: PocketPhoto, set: string, { hole, pin, x, y }: Marked): Promise<boolean> {
  if (pin) {
    const moved = { kind: "entry-replaced", entry: pin.entry, fields: { x, y }, reason: say("where.move.reason") };
    return hand.record([moved], say("where.moved", { hole, set }));
  }
  return hand.record([{ kind: "photo-pinned", photo: photo.photo, element: set, hole, x, y }], say("where.pinned", { hole, set }));
}
