import type { Pocket, PocketPhoto } from "../pocket/shape";
import { say } from "../words/say";
import { PhotoBoard } from "./photo_board";
import { PinMark } from "./pin_mark";
import { outlineOf } from "./shapes";
import type { Size } from "./view";

interface Props {
  readonly pocket: Pocket;
  readonly photo: PocketPhoto;
  /** The set whose holes are ringed; others are drawn small and in another outline. */
  readonly set: string;
  /** Given, the photo can be zoomed and a tap gives its place, in pixels of the photo. */
  readonly tapped?: (x: number, y: number, size: Size) => void;
  readonly chosen?: number | null;
}

/** A photo with the holes of a set numbered and ringed where they are. */
export function PhotoPins({ pocket, photo, set, tapped, chosen = null }: Props) {
  const others = [...new Set(photo.pins.map((pin) => pin.element))];
  const own = photo.pins.filter((pin) => pin.element === set && pin.hole !== null);
  const holes = new Map(pocket.sets.find((each) => each.set === set)?.holes.map((hole) => [hole.hole, hole]));
  const alt = say("pins.alt", { set, holes: own.map((pin) => pin.hole).join(", ") || say("pins.no.hole") });
  return (
    <PhotoBoard photo={photo} alt={alt} tapped={tapped}>
      {(size, radius) =>
        photo.pins.map((pin) => (
          <PinMark
            key={`${pin.element}/${pin.hole}`}
            x={pin.x * size.width}
            y={pin.y * size.height}
            radius={pin.element === set ? radius : radius * 0.6}
            outline={outlineOf(pin.element, set, others)}
            number={pin.hole}
            state={pin.element === set ? stateOf(holes.get(pin.hole ?? 0)) : "other"}
            chosen={pin.element === set && pin.hole === chosen}
          />
        ))
      }
    </PhotoBoard>
  );
}

function stateOf(hole: { readonly level: string; readonly loose: boolean } | undefined): "open" | "done" | "plain" {
  if (!hole || hole.level === "untouched") return "plain";
  return hole.level === "final" && !hole.loose ? "done" : "open";
}
