import { useRef, useState } from "preact/hooks";

import { originalAddress, previewAddress, type Photo } from "../sync/api";
import type { Pair, Shot } from "../sync/desk";
import { photoTime, photoWords } from "../words/photo";
import { say } from "../words/say";
import { cornerOf, moved, WHOLE, zoomed, type View } from "./view";

interface Props {
  readonly pair: Pair;
  readonly view: View;
  readonly setView: (view: View) => void;
  readonly slider: boolean;
  readonly setSlider: (on: boolean) => void;
}

/** Half as wide as a ring is, as a share of the picture in hundredths: wide enough that what it rings is seen. */
const RING = 4.5;

/** The same thing before and after: side by side or one over the other, zoomed and moved together. */
export function PairView({ pair, view, setView, slider, setSlider }: Props) {
  const { before, after } = pair;
  const [cut, setCut] = useState(50);
  const grab = useDrag(view, setView);
  const both = before !== null && after !== null;
  return (
    <section class="pair" aria-label={say("pair.title", { element: pair.element })}>
      <h3>{say("pair.title", { element: pair.element })}</h3>
      {slider && both ? (
        <>
          <div class="frames one" onPointerDown={grab}>
            <Frame shot={before} pair={pair} view={view} what={say("pair.before")} />
            <div class="over" style={{ clipPath: `inset(0 0 0 ${cut}%)` }}>
              <Frame shot={after} pair={pair} view={view} what={say("pair.after")} />
            </div>
          </div>
          <label class="cut-at">
            {say("pair.cut")}
            <input type="range" min="0" max="100" value={cut} onInput={(event) => setCut(event.currentTarget.valueAsNumber)} />
          </label>
        </>
      ) : (
        <div class="frames" onPointerDown={grab}>
          {before && <Frame shot={before} pair={pair} view={view} what={say("pair.before")} />}
          {after && <Frame shot={after} pair={pair} view={view} what={say("pair.after")} />}
          {!after && <p class="no-picture">{say("pair.owed")}</p>}
        </div>
      )}
      <div class="tools" role="group" aria-label={say("pair.tools")}>
        <button type="button" onClick={() => setView(zoomed(view, 1))}>{say("pair.nearer")}</button>
        <button type="button" onClick={() => setView(zoomed(view, -1))}>{say("pair.further")}</button>
        <button type="button" onClick={() => setView(WHOLE)}>{say("pair.whole")}</button>
        <button type="button" onClick={() => setView({ zoom: 3, dx: 0, dy: 0 })}>{say("pair.place")}</button>
        <button type="button" disabled={!both} aria-pressed={slider && both} onClick={() => setSlider(!slider)}>{say("pair.slider")}</button>
      </div>
    </section>
  );
}

interface FrameProps {
  readonly shot: Shot;
  readonly pair: Pair;
  readonly view: View;
  readonly what: string;
}

function Frame({ shot, pair, view, what }: FrameProps) {
  const { photo } = shot;
  const [width, height] = [photo.width ?? 4, photo.height ?? 3];
  const own = shot.pins.filter((pin) => pin.element === pair.element);
  const pins = own.length ? own : shot.pins;
  const { left, top } = cornerOf(view, pins[0] ?? { x: 0.5, y: 0.5 });
  const layer = { transform: `translate(${left * 100}%, ${top * 100}%) scale(${view.zoom})` };
  return (
    <figure class="frame">
      <div class="glass" style={{ aspectRatio: `${width} / ${height}` }}>
        <div class="layer" style={layer}>
          <Sharp photo={photo} near={view.zoom > 1.4} />
          <svg class="pins" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
            {pins.map((pin) => (
              <ellipse key={`${pin.element}/${pin.hole}`} cx={pin.x * 100} cy={pin.y * 100} rx={RING} ry={(RING * width) / height} />
            ))}
          </svg>
        </div>
      </div>
      <figcaption>
        <strong>{what}</strong> <span class="quiet">{photoTime(photo)}</span>
      </figcaption>
    </figure>
  );
}

/** The small picture; near enough, the original over it, as soon as it is there. */
function Sharp({ photo, near }: { readonly photo: Photo; readonly near: boolean }) {
  const [lost, setLost] = useState(photo.sha256 === null);
  const [plain, setPlain] = useState(false);
  if (lost || photo.sha256 === null) return <span class="no-picture">{say("photo.preview.missing")}</span>;
  const address = near && !plain ? originalAddress(photo.sha256) : previewAddress(photo.sha256);
  return (
    <img
      src={address}
      alt={photoWords(photo)}
      draggable={false}
      decoding="async"
      onError={() => (near && !plain ? setPlain(true) : setLost(true))}
    />
  );
}

/** Drag both photos with the mouse or a finger; arrow keys and buttons do the same. */
function useDrag(view: View, setView: (view: View) => void) {
  const latest = useRef(view);
  latest.current = view;
  return (event: PointerEvent) => {
    const frame = event.currentTarget;
    if (!(frame instanceof HTMLElement) || view.zoom === 1) return;
    const { width, height } = (frame.querySelector(".glass") ?? frame).getBoundingClientRect();
    let [x, y] = [event.clientX, event.clientY];
    const move = (to: PointerEvent) => {
      const { zoom, dx, dy } = latest.current;
      setView({ zoom, dx: dx - (to.clientX - x) / width / zoom, dy: dy - (to.clientY - y) / height / zoom });
      [x, y] = [to.clientX, to.clientY];
    };
    const drop = () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", drop);
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", drop);
  };
}

/** What the keys do while a pair is looked at. */
export function pairKeys(view: View, setView: (view: View) => void, slide: () => void): Record<string, () => void> {
  const near = view.zoom > 1;
  const pan = (right: number, down: number) => () => setView(moved(view, right, down));
  return {
    "+": () => setView(zoomed(view, 1)),
    "-": () => setView(zoomed(view, -1)),
    "0": () => setView(WHOLE),
    g: () => setView({ zoom: 3, dx: 0, dy: 0 }),
    o: slide,
    ...(near ? { ArrowLeft: pan(-1, 0), ArrowRight: pan(1, 0), ArrowUp: pan(0, -1), ArrowDown: pan(0, 1) } : {}),
  };
}
