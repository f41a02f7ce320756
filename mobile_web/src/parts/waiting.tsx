import type { ComponentChildren } from "preact";

import type { Loaded } from "../sync/loaded";
import { say } from "../words/say";

interface Props<T> {
  readonly loaded: Loaded<T>;
  readonly what: string;
  readonly again: () => void;
  readonly children: (here: T) => ComponentChildren;
}

/** Show an answer once it is here; until then say what is fetched, and if it fails say why and offer another try. */
export function Waiting<T>({ loaded, what, again, children }: Props<T>) {
  if (loaded === "waiting") {
    return (
      <p class="waiting" role="status">
        {say("fetching", { what })}
      </p>
    );
  }
  if ("trouble" in loaded) {
    return (
      <div class="trouble" role="alert">
        <p>{loaded.trouble}</p>
        <button type="button" onClick={again}>
          {say("again")}
        </button>
      </div>
    );
  }
  return <>{children(loaded.here)}</>;
}
