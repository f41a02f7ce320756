/** A voice note as bytes. */
export interface Voice {
  readonly bytes: ArrayBuffer;
  readonly type: string;
  readonly seconds: number;
}

export const LONGEST_S = 60;

/** Tell whether this browser can take a voice note: only on a page by HTTPS or from this machine. */
export function canSpeak(): boolean {
  const media = (navigator as Partial<Navigator>).mediaDevices;
  return media !== undefined && "MediaRecorder" in globalThis;
}

/** Listen until `stop` is called, at most a minute; null when the microphone is refused or gave nothing. */
export async function listen(stop: Promise<void>): Promise<Voice | null> {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: true }).catch(() => null);
  if (!stream) return null;
  const parts: Blob[] = [];
  const recorder = new MediaRecorder(stream);
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const ended = new Promise((then) => recorder.addEventListener("stop", then));
  const began = Date.now();
  recorder.start();
  await Promise.race([stop, ended, new Promise((then) => setTimeout(then, LONGEST_S * 1000))]);
  if (recorder.state !== "inactive") recorder.stop();
  await ended;
  stream.getTracks().forEach((track) => track.stop());
  const sound = new Blob(parts);
  const [type = ""] = recorder.mimeType.split(";");
  const seconds = Math.max(1, Math.round((Date.now() - began) / 1000));
  return sound.size ? { bytes: await sound.arrayBuffer(), type: type || "audio/webm", seconds } : null;
}
