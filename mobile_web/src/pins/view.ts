/** Which piece of a photo is in sight: how much larger, and its corner, all in pixels of the photo. */
export interface View {
  readonly k: number;
  readonly x: number;
  readonly y: number;
}
export interface Size {
  readonly width: number;
  readonly height: number;
}

export const WHOLE: View = { k: 1, x: 0, y: 0 };
const MOST = 8;

/** Make the photo k times larger about a point that stays where it is. */
export function zoomed(view: View, k: number, at: { readonly x: number; readonly y: number }, size: Size): View {
  const next = Math.min(MOST, Math.max(1, k));
  const share = view.k / next;
  return held({ k: next, x: at.x - (at.x - view.x) * share, y: at.y - (at.y - view.y) * share }, size);
}

/** Move the piece in sight; it never leaves the photo. */
export function moved(view: View, by: { readonly x: number; readonly y: number }, size: Size): View {
  return held({ ...view, x: view.x + by.x, y: view.y + by.y }, size);
}

function held({ k, x, y }: View, { width, height }: Size): View {
  const within = (value: number, most: number) => Math.min(Math.max(value, 0), most);
  return { k, x: within(x, width - width / k), y: within(y, height - height / k) };
}

/** Give a point as shares of the photo, kept inside it. */
export function sharesOf(point: { readonly x: number; readonly y: number }, { width, height }: Size): { x: number; y: number } {
  const within = (value: number) => Math.round(Math.min(Math.max(value, 0), 1) * 10_000) / 10_000;
  return { x: within(point.x / width), y: within(point.y / height) };
}
