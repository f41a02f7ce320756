import { cornersOf, type Outline } from "./shapes";

interface Props {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly outline: Outline;
  readonly number: number | null;
  readonly state: "open" | "done" | "plain" | "other";
  readonly chosen: boolean;
}

/** One pin: a numbered outline; an open hole wears a second ring, a finished one is filled. */
export function PinMark({ x, y, radius, outline, number, state, chosen }: Props) {
  const corners = cornersOf(outline, radius);
  return (
    <g class={`pin ${state}${chosen ? " chosen" : ""}`} transform={`translate(${x} ${y})`}>
      {(state === "open" || chosen) && <circle class="ring" r={radius * 1.45} stroke-width={radius / 4} />}
      {corners === null ? <circle class="body" r={radius} stroke-width={radius / 6} /> : <polygon class="body" points={corners} stroke-width={radius / 6} />}
      {number !== null && <text font-size={radius * 1.2} dy={radius * 0.42} text-anchor="middle">{number}</text>}
    </g>
  );
}
