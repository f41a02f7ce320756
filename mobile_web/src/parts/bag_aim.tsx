import { useEffect, useState } from "preact/hooks";

import { pictureOf, type Shot } from "../camera/camera";
import { isForBags, type Known } from "../draft/known";
import { shown } from "../scan/label_code";
import type { Scanner, Seen } from "../scan/scanner";
import { getLabel } from "../sync/api";
import { say } from "../words/say";
import { LiveView } from "./live_view";

interface Props {
  readonly job: string;
  readonly known: Known;
  readonly scanner: Scanner;
  readonly taken: (shot: Shot, labels: readonly string[], later: boolean) => void;
}

const STILL_IN_VIEW_MS = 2000;

/** Aim: the label in view is named in big letters; one tap takes the photo. */
export function BagAim({ job, known, scanner, taken }: Props) {
  const [view, setView] = useState<{ labels: readonly string[]; at: number }>({ labels: [], at: 0 });
  const labelsOf = (seen: readonly Seen[]) => [
    ...new Set(seen.filter((each) => isForBags(each, known)).map((each) => each.code)),
  ];
  const see = (seen: readonly Seen[]) => {
    const labels = labelsOf(seen);
    const now = Date.now();
    if (labels.length) setView((old) => ({ labels: same(old.labels, labels) ? old.labels : labels, at: now }));
    else setView((old) => (old.labels.length && now - old.at > STILL_IN_VIEW_MS ? { labels: [], at: 0 } : old));
  };
  const take = async (shot: Shot, later: boolean) => {
    const inShot = labelsOf(await scanner.look(await pictureOf(shot), true));
    const before = Date.now() - view.at < STILL_IN_VIEW_MS ? view.labels : [];
    taken(shot, inShot.length ? inShot : before, later);
  };
  return (
    <LiveView scanner={scanner} seen={see}>
      {(shutter, ready) => (
        <>
          <InView job={job} known={known} labels={view.labels} />
          <div class="actions">
            <button type="button" class="shutter" disabled={!ready} onClick={() => shutter((shot) => void take(shot, false))}>
              {say("bag.shutter")}
            </button>
            <button type="button" disabled={!ready} onClick={() => shutter((shot) => void take(shot, true))}>
              {say("bag.later")}
            </button>
          </div>
        </>
      )}
    </LiveView>
  );
}

function InView({ job, known, labels }: { readonly job: string; readonly known: Known; readonly labels: readonly string[] }) {
  const [elsewhere, setElsewhere] = useState<string | null>(null);
  const [label] = labels;
  useEffect(() => {
    setElsewhere(null);
    if (label === undefined || known.labels[label] !== undefined) return;
    void getLabel(label).then((answer) => {
      if ("here" in answer && answer.here.job !== null && answer.here.job !== job) setElsewhere(answer.here.sentence);
    });
  }, [label]);
  return (
    <div class="in-view" role="status">
      <p class="label">{labels.length ? labels.map(shown).join(" · ") : say("bag.no.label")}</p>
      {elsewhere && <p>{elsewhere}</p>}
    </div>
  );
}

function same(left: readonly string[], right: readonly string[]): boolean {
  return left.length === right.length && left.every((each, index) => each === right[index]);
}
