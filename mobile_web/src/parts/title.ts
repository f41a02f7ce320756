import { useEffect } from "preact/hooks";

/** Name the browser's tab after the screen. */
export function useTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} · Lastbolt`;
  }, [title]);
}
