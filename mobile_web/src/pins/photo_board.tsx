import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";

import { usePicture } from "../pocket/pictures";
import type { PocketPhoto } from "../pocket/shape";
import messages from "../words/en/places.json";
import { learnWords, say } from "../words/say";
import { useGestures } from "./gestures";
import { moved, WHOLE, zoomed, type Size, type View } from "./view";

learnWords(messages);

interface Props {
  readonly photo: PocketPhoto;
  /** What the drawing says to those who do not see it. */
  readonly alt: string;
  /** Given, the photo can be zoomed and a tap gives its place, in pixels of the photo. */
  readonly tapped?: ((x: number, y: number, size: Size, radius: number) => void) | undefined;
  /** What lies over the photo; a pin has this radius, in pixels of the photo, however near one looks. */
  readonly children: (size: Size, radius: number) => ComponentChildren;
}

const STEP = 1.5;
const UNKNOWN: Size = { width: 1600, height: 1200 };

/** A photo to be looked at closely: fingers, buttons or keys zoom and move it, and a tap or Enter points at a place. */
export function PhotoBoard({ photo, alt, tapped, children }: Props) {
  const address = usePicture(photo.sha256);
  const [natural, setNatural] = useState<Size | null>(null);
  const [view, setView] = useState<View>(WHOLE);
  const size = photo.width && photo.height ? { width: photo.width, height: photo.height } : (natural ?? UNKNOWN);
  const radius = (Math.max(size.width, size.height) / view.k) * 0.032;
  const drawing = useRef<SVGSVGElement>(null);
  const gestures = useGestures(drawing, { view, setView, size, tapped: tapped && ((x, y) => tapped(x, y, size, radius)) });
  const middle = { x: view.x + size.width / view.k / 2, y: view.y + size.height / view.k / 2 };
  const zoom = (by: number) => setView(zoomed(view, view.k * by, middle, size));
  const key = (event: KeyboardEvent) => {
    const far = size.width / view.k / 10;
    const ways: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-far, 0], ArrowRight: [far, 0], ArrowUp: [0, -far], ArrowDown: [0, far] };
    const way = ways[event.key];
    if (way) setView(moved(view, { x: way[0], y: way[1] }, size));
    else if (event.key === "+") zoom(STEP);
    else if (event.key === "-") zoom(1 / STEP);
    else if (event.key === "Enter" && tapped) tapped(middle.x, middle.y, size, radius);
    else return;
    event.preventDefault();
  };
  return (
    <figure class="pins">
      {address && !photo.width && <img hidden src={address} alt="" onLoad={(event) => setNatural({ width: event.currentTarget.naturalWidth, height: event.currentTarget.naturalHeight })} />}
      <div class={tapped ? "pin-board held" : "pin-board"} role="group" aria-label={say("pins.board")} {...(tapped ? { tabIndex: 0, onKeyDown: key } : {})}>
        <svg ref={drawing} role="img" aria-label={alt} viewBox={`${view.x} ${view.y} ${size.width / view.k} ${size.height / view.k}`} {...gestures}>
          {address && <image href={address} width={size.width} height={size.height} preserveAspectRatio="none" />}
          {children(size, radius)}
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
