import type { Scanner, Seen } from "./scanner";

const PAUSE_MS = 100;
const HARD_EVERY = 5;

/** Look at a live picture about ten times a second, harder every fifth time; gives the way to stop. */
export function watch(video: HTMLVideoElement, scanner: Scanner, found: (seen: readonly Seen[]) => void): () => void {
  let stopped = false;
  let turn = 0;
  const next = async () => {
    if (stopped) return;
    if (video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && !document.hidden) {
      turn += 1;
      const picture = await createImageBitmap(video).catch(() => null);
      const seen = picture ? await scanner.look(picture, turn % HARD_EVERY === 0) : [];
      if (!stopped && picture) found(seen);
    }
    setTimeout(() => void next(), PAUSE_MS);
  };
  void next();
  return () => {
    stopped = true;
  };
}
