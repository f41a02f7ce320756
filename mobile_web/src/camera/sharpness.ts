import type { Shot } from "./camera";

const EDGE_PX = 800;
/** The server's reader says "blurred" below the same limit (vision/quality.py); here it is asked before the photo is kept. */
const BLUNT = 3;
const SHARPEST_SHARE = 0.98;

/** Tell whether a shot is too blurred to be evidence; null where the browser cannot look. */
export async function isBlurred({ bytes, type, width, height }: Shot): Promise<boolean | null> {
  const share = Math.min(1, EDGE_PX / Math.max(width, height));
  const picture = await createImageBitmap(new Blob([bytes], { type }), {
    resizeWidth: Math.max(1, Math.round(width * share)),
    resizeQuality: "medium",
  }).catch(() => null);
  const context = picture && Object.assign(document.createElement("canvas"), { width: picture.width, height: picture.height }).getContext("2d");
  if (!picture || !context) return null;
  context.drawImage(picture, 0, 0);
  const { data } = context.getImageData(0, 0, picture.width, picture.height);
  const grey = Float32Array.from({ length: data.length / 4 }, (_, i) => 0.299 * data[4 * i]! + 0.587 * data[4 * i + 1]! + 0.114 * data[4 * i + 2]!);
  const blurred = sharpness(grey, picture.width) < BLUNT;
  picture.close();
  return blurred;
}

/** How strong the sharpest edges of a grey picture are: what 98 % of its second differences stay below. */
export function sharpness(grey: Float32Array, width: number): number {
  const height = grey.length / width;
  const edges: number[] = [];
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const at = y * width + x;
      edges.push(Math.abs(grey[at - 1]! + grey[at + 1]! + grey[at - width]! + grey[at + width]! - 4 * grey[at]!));
    }
  }
  const sorted = Float32Array.from(edges).sort();
  return sorted[Math.floor(sorted.length * SHARPEST_SHARE)] ?? 0;
}
