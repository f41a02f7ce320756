import { useEffect, useMemo, useRef, useState } from "preact/hooks";

import { traysIn } from "../draft/handover";
import { Scanner, type Seen } from "../scan/scanner";
import type { TrayToSee } from "../sync/hand";
import { say } from "../words/say";
import { LiveView } from "./live_view";

type Names = ReadonlySet<string>;
interface Props {
  readonly trays: readonly TrayToSee[];
  readonly seen: Names;
  readonly see: (change: (old: Names) => Names) => void;
  readonly disputed: Names;
  readonly dispute: (change: (old: Names) => Names) => void;
  readonly next: () => void;
}

const including = (name: string) => (old: Names) => new Set([...old, name]);
const without = (name: string) => (old: Names) => new Set([...old].filter((each) => each !== name));

/** Walk along the trays with the camera: the list ticks itself, several labels in one view are fine. */
export function TrayWalk({ trays, seen, see, disputed, dispute, next }: Props) {
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const began = useRef(Date.now());
  const [last, setLast] = useState<readonly string[]>([]);
  const missing = trays.filter(({ container }) => !seen.has(container));
  const look = (found: readonly Seen[]) => {
    const here = traysIn(found.map(({ code }) => code), trays).map(({ container }) => container);
    const fresh = here.filter((name) => !seen.has(name));
    if (fresh.length === 0) return;
    see((old) => new Set([...old, ...fresh]));
    setLast(fresh);
  };
  const named = (name: string) => trays.find(({ container }) => container === name)?.label ?? name;
  const seconds = Math.round((Date.now() - began.current) / 1000);
  return (
    <>
      <LiveView scanner={scanner} seen={look}>
        {() => (
          <div class="in-view" role="status">
            <p class="label">{say("walk.count", { seen: trays.length - missing.length, all: trays.length })}</p>
            <p>
              {missing.length === 0 ? say("walk.all", { seconds }) : last.map(named).join(" · ") || say("walk.how")}
            </p>
          </div>
        )}
      </LiveView>
      <button type="button" class="shutter" onClick={next}>
        {missing.length ? say("walk.on.missing", { n: missing.length }) : say("walk.on")}
      </button>
      <ul class="plain walk">
        {[...missing, ...trays.filter(({ container }) => seen.has(container))].map(({ container, label, place, n }) => (
          <li key={container} class={seen.has(container) ? "seen" : "missing"}>
            <span class="state">{say(seen.has(container) ? "walk.seen" : "walk.missing")}</span>
            <span class="what">
              <strong>{label ?? container}</strong>
              <span class="quiet">
                {say("entry.pieces", { n })}
                {place ? ` · ${place}` : ""}
                {disputed.has(container) ? ` · ${say("walk.disputed")}` : ""}
              </span>
            </span>
            {seen.has(container) ? (
              <button type="button" onClick={() => dispute((disputed.has(container) ? without : including)(container))}>
                {say(disputed.has(container) ? "walk.agree" : "walk.dispute")}
              </button>
            ) : (
              <button type="button" onClick={() => see(including(container))}>
                {say("walk.by.hand")}
              </button>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}
