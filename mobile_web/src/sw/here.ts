import { signal } from "@preact/signals";

/** Gives the new page its turn, once one is ready; null until then. */
export const update = signal<(() => void) | null>(null);

/** Keep the page for when there is no network; only a page that came by HTTPS or from this machine may. */
export async function keepPage(): Promise<void> {
  const workers = (navigator as Partial<Navigator>).serviceWorker;
  if (!workers || !import.meta.env.PROD) return;
  const registered = await workers.register("/sw.js", { updateViaCache: "none" }).catch(() => null);
  if (!registered) return;
  const offer = () => {
    const { waiting } = registered;
    if (waiting && workers.controller) update.value = () => takeOver(workers, waiting);
  };
  offer();
  registered.addEventListener("updatefound", () => registered.installing?.addEventListener("statechange", offer));
}

function takeOver(workers: ServiceWorkerContainer, waiting: ServiceWorker): void {
  workers.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage("take over");
}
