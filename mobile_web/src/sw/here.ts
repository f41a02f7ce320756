import { signal } from "@preact/signals";

import { unfinished } from "./quiet";
import { turnOf } from "./turn";

const MARK = "updated";
const LOOK_AGAIN_MS = 30 * 60_000;

/** Gives the new page its turn, once one is ready; null until then. */
export const update = signal<(() => void) | null>(null);
/** The page was loaded anew for an update a moment ago. */
export const updated = signal(wasUpdated());

/** Keep the page for when there is no network; only a page that came by HTTPS or from this machine may. */
export async function keepPage(): Promise<void> {
  const workers = (navigator as Partial<Navigator>).serviceWorker;
  if (!workers || !import.meta.env.PROD) return;
  const registered = await workers.register("/sw.js", { updateViaCache: "none" }).catch(() => null);
  if (!registered) return;
  const turn = turnOf(workers, registered, loadAnew);
  const takeWhenQuiet = () => update.value && isHidden() && turn(nothingBegun, isHidden);
  const offer = () => {
    if (registered.waiting && workers.controller) update.value = () => turn(nothingBegun);
    takeWhenQuiet();
  };
  offer();
  registered.addEventListener("updatefound", () => registered.installing?.addEventListener("statechange", offer));
  setInterval(() => void registered.update().catch(() => undefined), LOOK_AGAIN_MS);
  document.addEventListener("visibilitychange", takeWhenQuiet);
}

const nothingBegun = (): boolean => unfinished.value === 0;

/** A phone that is put away with nothing begun on it is a quiet moment; whoever has something open keeps it. */
const isHidden = (): boolean => document.visibilityState === "hidden";

function loadAnew(): void {
  try {
    sessionStorage.setItem(MARK, "yes");
  } catch {
    // a browser that keeps nothing does not say afterwards that it was updated
  }
  location.reload();
}

function wasUpdated(): boolean {
  try {
    const was = sessionStorage.getItem(MARK) !== null;
    sessionStorage.removeItem(MARK);
    return was;
  } catch {
    return false;
  }
}
