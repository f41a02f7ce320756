/** The outlines of pins: sets differ in outline and number, never by colour alone. */
export const OUTLINES = ["circle", "square", "triangle", "diamond", "hexagon"] as const;
export type Outline = (typeof OUTLINES)[number];

/** Give the outline of a set among those on one photo; its own set is always the circle, the others take turns. */
export function outlineOf(set: string, own: string | null, others: readonly string[]): Outline {
  if (set === own) return "circle";
  const place = others.filter((each) => each !== own).indexOf(set);
  return OUTLINES[1 + (Math.max(place, 0) % (OUTLINES.length - 1))] ?? "square";
}

/** Write the corners of an outline around 0,0 with a radius, as SVG wants them; null for the circle. */
export function cornersOf(outline: Outline, radius: number): string | null {
  const turns: Readonly<Record<Outline, readonly [number, number]>> = { circle: [0, 0], square: [4, 45], triangle: [3, -90], diamond: [4, 0], hexagon: [6, 0] };
  const [corners, first] = turns[outline];
  if (!corners) return null;
  const size = radius * (corners === 3 ? 1.5 : corners === 4 ? 1.25 : 1.1);
  return Array.from({ length: corners }, (_, index) => {
    const angle = ((first + (360 / corners) * index) * Math.PI) / 180;
    return `${(size * Math.cos(angle)).toFixed(1)},${(size * Math.sin(angle)).toFixed(1)}`;
  }).join(" ");
}
