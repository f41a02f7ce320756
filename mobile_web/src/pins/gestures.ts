import type { RefObject } from "preact";
import { useRef } from "preact/hooks";

import { moved, zoomed, type Size, type View } from "./view";

interface Asked {
  readonly view: View;
  readonly setView: (view: View) => void;
  readonly size: Size;
  readonly tapped: ((x: number, y: number) => void) | undefined;
}
interface Point {
  readonly x: number;
  readonly y: number;
}

const STILL_PX = 12;

/** One finger moves the photo, two zoom it, a tap that hardly moves gives its place; nothing when no tap is asked for. */
export function useGestures(drawing: RefObject<SVGSVGElement | null>, asked: Asked) {
  const fingers = useRef(new Map<number, Point>());
  const start = useRef<{ at: Point; moved: boolean } | null>(null);
  const { tapped } = asked;
  if (!tapped) return {};
  const inPhoto = ({ clientX, clientY }: PointerEvent): Point => {
    const matrix = drawing.current?.getScreenCTM()?.inverse();
    return new DOMPoint(clientX, clientY).matrixTransform(matrix);
  };
  const onPointerDown = (event: PointerEvent) => {
    drawing.current?.setPointerCapture(event.pointerId);
    fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    start.current = { at: { x: event.clientX, y: event.clientY }, moved: fingers.current.size > 1 };
  };
  const onPointerMove = (event: PointerEvent) => {
    const before = fingers.current.get(event.pointerId);
    if (!before || !start.current) return;
    const now = { x: event.clientX, y: event.clientY };
    const [other] = [...fingers.current].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    fingers.current.set(event.pointerId, now);
    if (other) {
      start.current.moved = true;
      const by = distance(now, other) / Math.max(distance(before, other), 1);
      asked.setView(zoomed(asked.view, asked.view.k * by, inPhoto(event), asked.size));
      return;
    }
    if (distance(now, start.current.at) > STILL_PX) start.current.moved = true;
    if (!start.current.moved) return;
    const scale = asked.size.width / asked.view.k / (drawing.current?.clientWidth || 1);
    asked.setView(moved(asked.view, { x: (before.x - now.x) * scale, y: (before.y - now.y) * scale }, asked.size));
  };
  const onPointerUp = (event: PointerEvent) => {
    const still = start.current !== null && !start.current.moved && fingers.current.size === 1;
    const { x, y } = inPhoto(event);
    fingers.current.delete(event.pointerId);
    if (still && x >= 0 && y >= 0 && x <= asked.size.width && y <= asked.size.height) tapped(x, y);
  };
  const onPointerCancel = (event: PointerEvent) => void fingers.current.delete(event.pointerId);
  /** A finger that rests a while is a tap too, not a wish for a menu. */
  const onContextMenu = (event: Event) => event.preventDefault();
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel, onContextMenu };
}

function distance(left: Point, right: Point): number {
  return Math.hypot(left.x - right.x, left.y - right.y);
}
