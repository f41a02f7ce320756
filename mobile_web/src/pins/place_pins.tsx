import type { Pocket, PocketPhoto } from "../pocket/shape";
import { say } from "../words/say";
import { PhotoBoard } from "./photo_board";
import { PinMark } from "./pin_mark";
import { placesOn, setAt, type Spot } from "./places";
import { sharesOf } from "./view";

interface Props {
  readonly pocket: Pocket;
  readonly photo: PocketPhoto;
  /** The set last worked on: its pin wears a ring. */
  readonly last: string | null;
  /** Before the pieces are counted no place is taken; the hint says so. */
  readonly ready: boolean;
  readonly known: (set: string) => void;
  readonly fresh: (spot: Spot) => void;
}

/** Where were they? A tap on a pin says the set, a tap beside all of them is a new spot; sets differ in outline and number. */
export function PlacePins({ pocket, photo, last, ready, known, fresh }: Props) {
  const places = placesOn(photo, pocket);
  const alt = say("places.alt", { places: places.map(({ number, set }) => `${number} ${set}`).join(", ") });
  return (
    <section class="places" aria-label={say("places.title")}>
      <PhotoBoard
        photo={photo}
        alt={alt}
        tapped={(x, y, size, radius) => {
          if (!ready) return;
          const set = setAt(places, { x, y }, size, radius);
          if (set !== null) known(set);
          else fresh({ photo: photo.photo, ...sharesOf({ x, y }, size) });
        }}
      >
        {(size, radius) =>
          places.flatMap(({ set, number, outline, marks }) =>
            marks.map((mark, index) => (
              <PinMark key={`${set}/${index}`} x={mark.x * size.width} y={mark.y * size.height} radius={radius} outline={outline} number={number} state="plain" chosen={set === last} />
            )),
          )
        }
      </PhotoBoard>
      <p class="quiet">{ready ? places.map(({ number, set }) => `${number} ${set}`).join(" · ") : say("places.count.first")}</p>
    </section>
  );
}
