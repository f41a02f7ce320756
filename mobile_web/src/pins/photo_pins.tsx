import { useRef, useState } from "preact/hooks";

import { usePicture } from "../pocket/pictures";
import type { Pocket, PocketPhoto } from "../pocket/shape";
import { say } from "../words/say";
import { PinMark } from "./pin_mark";
import { useGestures } from "./gestures";
import { outlineOf } from "./shapes";
import { moved, WHOLE, zoomed, type View } from "./view";

interface Props {
  readonly pocket: Pocket;
  readonly photo: PocketPhoto;
  /** The set whose holes are ringed; others are drawn small and in another outline. */
  readonly set: string;
  /** Given, the photo can be zoomed and a tap gives its place, in pixels of the photo. */
  readonly tapped?: (x: number, y: number, size: { width: number; height: number }) => void;
  readonly chosen?: number | null;
}

const STEP = 1.5;

/** A photo with the holes of a set numbered and ringed where they are. */
export function PhotoPins({ pocket, photo, set, tapped, chosen = null }: Props) {
  const address = usePicture(photo.sha256);
  const [natural, setNatural] = useState<{ width: number; height: number } | null>(null);
  const [view, setView] = useState<View>(WHOLE);
  const size = photo.width && photo.height ? { width: photo.width, height: photo.height } : (natural ?? { width: 1600, height: 1200 });
  const drawing = useRef<SVGSVGElement>(null);
  const gestures = useGestures(drawing, { view, setView, size, tapped: tapped && ((x, y) => tapped(x, y, size)) });
  const middle = { x: view.x + size.width / view.k / 2, y: view.y + size.height / view.k / 2 };
  const zoom = (by: number) => setView(zoomed(view, view.k * by, middle, size));
  const key = (event: KeyboardEvent) => {
    const far = size.width / view.k / 10;
    const ways: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-far, 0], ArrowRight: [far, 0], ArrowUp: [0, -far], ArrowDown: [0, far] };
    const way = ways[event.key];
    if (way) setView(moved(view, { x: way[0], y: way[1] }, size));
    else if (event.key === "+") zoom(STEP);
    else if (event.key === "-") zoom(1 / STEP);
    else if (event.key === "Enter" && tapped) tapped(middle.x, middle.y, size);
    else return;
    event.preventDefault();
  };
  const others = [...new Set(photo.pins.map((pin) => pin.element))];
  const own = photo.pins.filter((pin) => pin.element === set && pin.hole !== null);
  const holes = new Map(pocket.sets.find((each) => each.set === set)?.holes.map((hole) => [hole.hole, hole]));
  const radius = (Math.max(size.width, size.height) / view.k) * 0.032;
  return (
    <figure class="pins">
      {address && !photo.width && <img hidden src={address} alt="" onLoad={(event) => setNatural({ width: event.currentTarget.naturalWidth, height: event.currentTarget.naturalHeight })} />}
      <div class={tapped ? "pin-board held" : "pin-board"} role="group" aria-label={say("pins.board")} {...(tapped ? { tabIndex: 0, onKeyDown: key } : {})}>
        <svg ref={drawing} role="img" aria-label={say("pins.alt", { set, holes: own.map((pin) => pin.hole).join(", ") || say("pins.no.hole") })} viewBox={`${view.x} ${view.y} ${size.width / view.k} ${size.height / view.k}`} {...gestures}>
          {address && <image href={address} width={size.width} height={size.height} preserveAspectRatio="none" />}
          {photo.pins.map((pin) => (
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
          ))}
          {tapped && <path class="cross" d={`M${middle.x - radius} ${middle.y}h${radius * 2}M${middle.x} ${middle.y - radius}v${radius * 2}`} stroke-width={radius / 8} />}
        </svg>
      </div>
      {!address && <figcaption>{say("pins.no.picture")}</figcaption>}
      {tapped && (
        <div class="zoom">
          <button type="button" aria-label={say("pins.nearer")} onClick={() => zoom(STEP)}>+</button>
          <button type="button" aria-label={say("pins.further")} onClick={() => zoom(1 / STEP)}>−</button>
        </div>
      )}
    </figure>
  );
}

function stateOf(hole: { readonly level: string; readonly loose: boolean } | undefined): "open" | "done" | "plain" {
  if (!hole || hole.level === "untouched") return "plain";
  return hole.level === "final" && !hole.loose ? "done" : "open";
}
