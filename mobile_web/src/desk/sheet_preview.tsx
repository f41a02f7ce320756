import type { LabelLayout } from "../sync/release";
import { say } from "../words/say";

interface Props {
  readonly layout: LabelLayout;
  readonly start: number;
  readonly count: number;
  readonly choose?: (place: number) => void;
}

/** The sheet drawn to its proportions: places that are used up, that will be printed, that stay free. */
export function SheetPreview({ layout, start, count, choose }: Props) {
  const [width = 210, height = 297] = layout.paper_mm ?? [];
  const { columns, rows } = layout;
  const cell = { width: (width * 0.94) / Math.max(1, columns), height: (height * 0.88) / Math.max(1, rows) };
  const places = Array.from({ length: layout.places }, (_, index) => index + 1);
  return (
    <figure class="sheet-preview">
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={say("preview.alt", { from: start, to: Math.min(layout.places, start + count - 1), places: layout.places })}>
        <rect x={0.5} y={0.5} width={width - 1} height={height - 1} class="paper" />
        {layout.kind === "mat" && <Mat width={width} height={height} />}
        {places.map((place) => {
          const [column, row] = [(place - 1) % columns, Math.floor((place - 1) / columns)];
          const [x, y] = [width * 0.03 + column * cell.width, height * 0.03 + row * cell.height];
          const used = place < start;
          const printed = !used && place < start + count;
          return (
            <g key={place} class={used ? "place used" : printed ? "place printed" : "place"} onClick={choose && (() => choose(place))}>
              <rect x={x + 1} y={y + 1} width={cell.width - 2} height={cell.height - 2} />
              {printed && <Symbol x={x + 3} y={y + 3} size={Math.min(layout.symbol_mm ?? 20, cell.height - 6, cell.width - 6)} />}
              {used && <path d={`M${x + 1} ${y + 1}l${cell.width - 2} ${cell.height - 2}`} />}
              <text x={x + cell.width - 3} y={y + cell.height - 3} text-anchor="end" font-size={Math.min(8, cell.height / 3)}>{place}</text>
            </g>
          );
        })}
        {layout.check_line_mm && <path d={`M${(width - layout.check_line_mm) / 2} ${height * 0.95}h${layout.check_line_mm}`} class="check-line" />}
      </svg>
      <figcaption class="quiet">{say(layout.kind === "mat" ? "preview.mat" : "preview.more")}</figcaption>
    </figure>
  );
}

/** A square with the three corner marks of a symbol: a picture of one, none to be read. */
function Symbol({ x, y, size }: { readonly x: number; readonly y: number; readonly size: number }) {
  const mark = size * 0.28;
  return (
    <g class="symbol">
      <rect x={x} y={y} width={size} height={size} class="ground" />
      {[[0, 0], [1, 0], [0, 1]].map(([right, down]) => (
        <rect key={`${right}${down}`} x={x + right! * (size - mark)} y={y + down! * (size - mark)} width={mark} height={mark} class="corner" />
      ))}
    </g>
  );
}

function Mat({ width, height }: { readonly width: number; readonly height: number }) {
  const mark = Math.min(width, height) * 0.1;
  return (
    <>
      {[[0, 0], [1, 0], [0, 1], [1, 1]].map(([right, down]) => (
        <rect key={`${right}${down}`} x={8 + right! * (width - mark - 16)} y={8 + down! * (height - mark - 16)} width={mark} height={mark} class="corner" />
      ))}
    </>
  );
}
