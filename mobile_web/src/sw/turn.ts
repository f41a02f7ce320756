const AGAIN_MS = 2000;

type Workers = Pick<ServiceWorkerContainer, "addEventListener">;
interface Registered {
  readonly waiting: { postMessage(message: string): void } | null;
  readonly installing: unknown;
}

/**
 * Give a newer page its turn, as long as the moment stays a quiet one: asked once, a worker may not hear it or be replaced by a newer one meanwhile, so it is asked again until it has taken over.
 * What was begun in between is not lost: the page stays, and is loaded anew at the next quiet moment that is asked for.
 */
export function turnOf(workers: Workers, registered: Registered, loadAnew: () => void): (isQuiet: () => boolean) => void {
  let quiet: () => boolean = () => false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = false;
  let hasTakenOver = false;
  const ask = (): void => {
    clearTimeout(timer);
    if (!quiet()) return;
    if (hasTakenOver || (!registered.waiting && !registered.installing)) {
      loadAnew();
      return;
    }
    asked = true;
    timer = setTimeout(ask, AGAIN_MS);
    registered.waiting?.postMessage("take over");
  };
  workers.addEventListener("controllerchange", () => {
    hasTakenOver = true;
    if (asked) ask();
  });
  return (isQuiet) => {
    quiet = isQuiet;
    ask();
  };
}
