import type { ComponentChildren, VNode } from "preact";
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";

interface Props {
  readonly count: number;
  /** The height of a row in pixels; all are alike. */
  readonly height: number;
  readonly label: string;
  readonly row: (index: number) => ComponentChildren;
  /** A row that stays in the page though it is out of sight: the one that has the focus. */
  readonly keep?: number | undefined;
}

/** How far beyond the screen rows are drawn already, in pixels. */
const MARGIN_PX = 600;

/** A long list of which only the rows in sight are in the page; the window itself scrolls. */
export function Windowed({ count, height, label, row, keep }: Props) {
  const list = useRef<HTMLUListElement>(null);
  const [[first, end], setRange] = useState<readonly [number, number]>([0, 40]);
  useLayoutEffect(() => {
    const look = () => {
      const top = list.current?.getBoundingClientRect().top ?? 0;
      const from = Math.max(0, Math.floor((-top - MARGIN_PX) / height));
      const to = Math.min(count, Math.ceil((innerHeight - top + MARGIN_PX) / height));
      setRange((old) => (old[0] === from && old[1] === to ? old : [from, to]));
    };
    look();
    addEventListener("scroll", look, { passive: true });
    addEventListener("resize", look);
    return () => {
      removeEventListener("scroll", look);
      removeEventListener("resize", look);
    };
  }, [count, height]);
  const shown = Array.from({ length: Math.max(0, Math.min(end, count) - first) }, (_, place) => first + place);
  if (keep !== undefined && keep < count && !shown.includes(keep)) shown.push(keep);
  const drawn = useDrawn(row, count, height);
  return (
    <ul ref={list} class="plain windowed" aria-label={label} style={{ height: `${count * height}px` }}>
      {drawn(shown)}
    </ul>
  );
}

/** Rows that stay in sight while the window scrolls are the very same as before, so that they are not drawn anew. */
function useDrawn(row: Props["row"], count: number, height: number): (shown: readonly number[]) => readonly VNode[] {
  const kept = useMemo(() => ({ rows: new Map<number, VNode>() }), [row, count, height]);
  const fresh = (index: number) => (
    <li key={index} aria-setsize={count} aria-posinset={index + 1} style={{ top: `${index * height}px`, height: `${height}px` }}>
      {row(index)}
    </li>
  );
  return (shown) => {
    kept.rows = new Map(shown.map((index) => [index, kept.rows.get(index) ?? fresh(index)]));
    return [...kept.rows.values()];
  };
}
