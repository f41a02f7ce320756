/** How both photos of a pair are looked at: how near, and how far off the place that was marked. */
export interface View {
  readonly zoom: number;
  readonly dx: number;
  readonly dy: number;
}

export const WHOLE: View = { zoom: 1, dx: 0, dy: 0 };
const NEAREST = 8;
const STEP = 0.15;

/** Go nearer (1) or further away (-1); all the way out the whole photo is seen again. */
export function zoomed(view: View, steps: number): View {
  const zoom = Math.min(NEAREST, Math.max(1, view.zoom * 1.5 ** steps));
  return zoom < 1.05 ? WHOLE : { ...view, zoom };
}

/** Move over both photos by a share of what is seen. */
export function moved(view: View, right: number, down: number): View {
  return { ...view, dx: view.dx + (right * STEP) / view.zoom, dy: view.dy + (down * STEP) / view.zoom };
}

/** Give where the picture's top left corner lies, in shares of the frame, so that the place is in the middle and no edge shows. */
export function cornerOf(view: View, place: { readonly x: number; readonly y: number }): { readonly left: number; readonly top: number } {
  const along = (at: number) => {
    const half = 0.5 / view.zoom;
    return -(Math.min(1 - half, Math.max(half, at)) - half) * view.zoom + 0;
  };
  return { left: along(place.x + view.dx), top: along(place.y + view.dy) };
}
