import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";

/** How many things on the page are begun and not recorded yet: a count pad, a form, a name half typed. */
export const unfinished = signal(0);

/** Say that something here would be lost if the page were loaded anew now. */
export function useUnfinished(open: boolean): void {
  useEffect(() => {
    if (!open) return undefined;
    unfinished.value += 1;
    return () => {
      unfinished.value -= 1;
    };
  }, [open]);
}
