import { useEffect, useState } from "preact/hooks";

import type { Answer } from "./api";
import { useChanges } from "./live";

export type Loaded<T> = Answer<T> | "waiting";

/** Ask the server once when a screen opens; the second value asks anew and keeps what is shown meanwhile. */
export function useLoaded<T>(ask: () => Promise<Answer<T>>): [Loaded<T>, () => void] {
  const [loaded, setLoaded] = useState<Loaded<T>>("waiting");
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    let left = false;
    void ask().then((answer) => {
      if (!left) setLoaded(answer);
    });
    return () => {
      left = true;
    };
  }, [turn]);
  return [loaded, () => setTurn(turn + 1)];
}

/** Ask when a screen opens and again whenever the job (null: any job) has new entries, from whichever phone. */
export function useLive<T>(job: string | null, ask: () => Promise<Answer<T>>): [Loaded<T>, () => void] {
  const [loaded, again] = useLoaded(ask);
  useChanges(job, again);
  return [loaded, again];
}
