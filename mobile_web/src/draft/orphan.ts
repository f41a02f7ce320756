/** A lone piece as measured; unknown is null. */
export interface Piece {
  readonly kind: string | null;
  readonly diameter_mm: number | null;
  readonly length_mm: number | null;
  readonly head_mm: number | null;
}

/** Say that a lone piece turned up, what it measures, and of which set a person takes it to be; null: nobody knows. */
export function foundPiece(piece: Piece, name: string, what: string, how: "caliper" | "photo", set: string | null) {
  const { diameter_mm, length_mm, head_mm } = piece;
  const measures = Object.fromEntries(
    Object.entries({ diameter_mm, length_mm, head_mm }).filter(([, value]) => value !== null),
  );
  const found = { kind: "thing-found", find: name, what };
  const measured = { kind: "fastener-measured", what: name, ...measures, how };
  const named = set === null ? [] : [{ kind: "fastener-identified", find: name, set }];
  return [found, measured, ...named];
}

/** Read a length in millimetres as typed, with comma or point; null when it is none or out of reason. */
export function millimetres(text: string): number | null {
  const plain = text.trim().replace(",", ".");
  const value = /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
  return value > 0 && value <= 1000 ? value : null;
}
