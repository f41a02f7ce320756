/** A live camera, or why there is none: the browser gives it only to a page by HTTPS, and only if the person lets it. */
export type Camera = { readonly stream: MediaStream } | { readonly none: "plain-http" | "refused" | "absent" };

/** A picture as bytes. */
export interface Shot {
  readonly bytes: ArrayBuffer;
  readonly type: string;
  readonly width: number;
  readonly height: number;
}

const LONGEST_LOOKED_AT = 2000;

/** Ask for the camera at the phone's back. */
export async function openCamera(): Promise<Camera> {
  const media = (navigator as Partial<Navigator>).mediaDevices;
  if (!media) return { none: "plain-http" };
  try {
    const wanted = { facingMode: "environment", width: { ideal: 1920 }, height: { ideal: 1080 } };
    return { stream: await media.getUserMedia({ video: wanted, audio: false }) };
  } catch (error) {
    return { none: error instanceof DOMException && error.name === "NotAllowedError" ? "refused" : "absent" };
  }
}

/** Let the camera go, so that its light goes out. */
export function closeCamera(camera: Camera): void {
  if ("stream" in camera) camera.stream.getTracks().forEach((track) => track.stop());
}

/** Take what the live picture shows now; null while it shows nothing. */
export async function shoot(video: HTMLVideoElement): Promise<Shot | null> {
  const [width, height] = [video.videoWidth, video.videoHeight];
  if (!width || !height) return null;
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  canvas.getContext("2d")?.drawImage(video, 0, 0);
  const blob = await new Promise<Blob | null>((given) => canvas.toBlob(given, "image/jpeg", 0.92));
  return blob && { bytes: await blob.arrayBuffer(), type: blob.type, width, height };
}

/** Read a photo that the phone's own camera program took, byte for byte; null when it is no picture. */
export async function shotFrom(file: File): Promise<Shot | null> {
  try {
    const picture = await createImageBitmap(file);
    const { width, height } = picture;
    picture.close();
    return { bytes: await file.arrayBuffer(), type: file.type, width, height };
  } catch {
    return null;
  }
}

/** Give a shot as a picture to look for labels in, not larger than that needs. */
export async function pictureOf(shot: Shot): Promise<ImageBitmap> {
  const share = Math.min(1, LONGEST_LOOKED_AT / Math.max(shot.width, shot.height));
  const blob = new Blob([shot.bytes], { type: shot.type });
  return createImageBitmap(blob, { resizeWidth: Math.round(shot.width * share), resizeQuality: "high" });
}
