import { useEffect, useState } from "preact/hooks";

import { say } from "../words/say";

/** What was understood, in words, and the way to take it back. */
export interface Understood {
  readonly sentence: string;
  readonly undo: (() => void) | null;
}

const UNDO_MS = 8000;

/** Say what was understood; for 8 seconds one tap takes it back. */
export function UndoBar({ understood }: { readonly understood: Understood | null }) {
  const [over, setOver] = useState(false);
  useEffect(() => {
    setOver(false);
    const timer = setTimeout(() => setOver(true), UNDO_MS);
    return () => clearTimeout(timer);
  }, [understood]);
  return (
    <div class={understood ? (over ? "understood over" : "understood") : "understood none"}>
      <p role="status">
        {understood?.sentence}
      </p>
      {understood?.undo && !over && (
        <button type="button" onClick={understood.undo}>
          {say("bag.undo")}
        </button>
      )}
    </div>
  );
}
