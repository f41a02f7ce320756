import type { ComponentChildren } from "preact";

import { counted, toggled, withOneMore, withoutAdded, type Marks } from "../draft/marks";
import { say } from "../words/say";
import { focused } from "./focused";

interface Props {
  readonly picture: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly outlines: readonly (readonly (readonly [number, number])[])[];
  readonly marks: Marks;
  readonly change: (marks: Marks) => void;
  readonly done: () => void;
}

/** The photo large with what the reader saw: a tap strikes one or adds one; the count follows. */
export function PhotoMarks({ picture, size, outlines, marks, change, done }: Props) {
  const { width, height } = size;
  const add = (drawing: SVGSVGElement, event: MouseEvent) => {
    const box = drawing.getBoundingClientRect();
    const share = (at: number, start: number, length: number) => Math.round(Math.min(1, Math.max(0, (at - start) / length)) * 10_000) / 10_000;
    change(withOneMore(marks, { x: share(event.clientX, box.left, box.width), y: share(event.clientY, box.top, box.height) }));
  };
  return (
    <div class="marks">
      <p class="label" tabIndex={-1} ref={focused}>{say("marks.how")}</p>
      <svg viewBox={`0 0 ${width} ${height}`} onClick={(event) => add(event.currentTarget, event)} role="group" aria-label={say("bag.photo.alt.plain")}>
        <image href={picture} width={width} height={height} />
        {outlines.map((outline, place) => (
          <Seen key={place} outline={outline} size={size} struck={marks.struck.has(place)} tap={() => change(toggled(marks, place))} number={place + 1} />
        ))}
        {marks.added.map(({ x, y }, place) => (
          <Tappable key={place} name={say("marks.added", { n: place + 1 })} pressed={true} tap={() => change(withoutAdded(marks, place))}>
            <circle class="added" cx={x * width} cy={y * height} r={width / 28} />
          </Tappable>
        ))}
      </svg>
      <div class="actions">
        <button type="button" onClick={done}>
          {say("marks.use", { count: counted(marks) })}
        </button>
        <button type="button" onClick={() => change(withOneMore(marks, { x: 0.5, y: 0.5 }))}>
          {say("marks.more")}
        </button>
      </div>
    </div>
  );
}

interface SeenProps {
  readonly outline: readonly (readonly [number, number])[];
  readonly size: Props["size"];
  readonly struck: boolean;
  readonly number: number;
  readonly tap: () => void;
}

function Seen({ outline, size, struck, number, tap }: SeenProps) {
  const points = outline.map(([x, y]) => [x * size.width, y * size.height] as const);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return (
    <Tappable name={say(struck ? "marks.struck" : "marks.seen", { n: number })} pressed={!struck} tap={tap}>
      <polygon class={struck ? "seen struck" : "seen"} points={points.map((point) => point.join(",")).join(" ")} />
      {struck && <path class="struck" d={`M${left} ${top}L${right} ${bottom}M${left} ${bottom}L${right} ${top}`} />}
    </Tappable>
  );
}

interface TapProps {
  readonly name: string;
  readonly pressed: boolean;
  readonly tap: () => void;
  readonly children: ComponentChildren;
}

function Tappable({ name, pressed, tap, children }: TapProps) {
  const act = (event: Event) => {
    event.stopPropagation();
    tap();
  };
  const key = (event: KeyboardEvent) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    act(event);
  };
  return (
    <g role="button" tabIndex={0} aria-label={name} aria-pressed={pressed} onClick={act} onKeyDown={key}>
      {children}
    </g>
  );
}
