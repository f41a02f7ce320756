const AGAIN_MS = 2000;

type Workers = Pick<ServiceWorkerContainer, "addEventListener">;
interface Registered {
  readonly waiting: { postMessage(message: string): void } | null;
  readonly installing: unknown;
}

/** Ask for it, at once and again while it `isStillMeant`, but only in moments that are quiet. */
type Turn = (isQuiet: () => boolean, isStillMeant?: () => boolean) => void;

/**
 * Give a newer page its turn, as long as the moment stays a quiet one: asked once, a worker may not hear it or be replaced by a newer one meanwhile, so it is asked again until it has taken over.
 * What was begun in between is not lost: the page stays, and is loaded anew at the next quiet moment that is asked for.
 */
export function turnOf(workers: Workers, registered: Registered, loadAnew: () => void): Turn {
  let quiet: () => boolean = () => false;
  let goesOn: () => boolean = () => false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = false;
  const ask = (): void => {
    clearTimeout(timer);
    if (!goesOn()) return;
    timer = setTimeout(ask, AGAIN_MS);
    if (!quiet()) return;
    if (!registered.waiting && !registered.installing) {
      clearTimeout(timer);
      loadAnew();
      return;
    }
    asked = true;
    registered.waiting?.postMessage("take over");
  };
  workers.addEventListener("controllerchange", () => asked && ask());
  return (isQuiet, isStillMeant = isQuiet) => {
    quiet = isQuiet;
    goesOn = isStillMeant;
    ask();
  };
}
