const EDGE_PX = 1600;
const MOST_BYTES = 300_000;
const QUALITIES = [0.8, 0.65, 0.5, 0.35];

/** Make a small upright JPEG of a picture: 1600 px at most, 300 kB at most; null for what the browser cannot show. */
export async function previewOf(bytes: ArrayBuffer, type: string): Promise<ArrayBuffer | null> {
  const picture = await createImageBitmap(new Blob([bytes], { type })).catch(() => null);
  if (!picture) return null;
  const share = Math.min(1, EDGE_PX / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(picture.width * share);
  canvas.height = Math.round(picture.height * share);
  const context = canvas.getContext("2d");
  if (context) context.imageSmoothingQuality = "high";
  context?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  let blob: Blob | null = null;
  for (const quality of QUALITIES) {
    blob = await new Promise<Blob | null>((given) => canvas.toBlob(given, "image/jpeg", quality));
    if (!blob || blob.size <= MOST_BYTES) break;
  }
  return blob && blob.size <= MOST_BYTES ? blob.arrayBuffer() : null;
}
