import { useEffect, useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { bagged, shotForLater, type Lot } from "../draft/bag";
import type { Known } from "../draft/known";
import { BagCount } from "../parts/bag_count";
import { alikeIn, countOff } from "../pocket/judgments";
import type { Pocket } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { overviewIn } from "../pocket/use_overview";
import { shown } from "../scan/label_code";
import { say } from "../words/say";
import { lotWords, photoOnlyWords } from "../words/understood";
import { pictured } from "./form";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly shot: Shot;
  readonly label: string;
  readonly other: () => void;
  readonly done: () => void;
}

/** Bag these: the photo is taken and its label read; the count and the place are two taps. */
export function BagThese({ hand, pocket, shot, label, other, done }: Props) {
  const [picture, setPicture] = useState("");
  const known = knownFrom(pocket);
  useEffect(() => {
    const address = URL.createObjectURL(new Blob([shot.bytes], { type: shot.type }));
    setPicture(address);
    return () => URL.revokeObjectURL(address);
  }, [shot]);
  const bag = async (lot: Lot) => {
    const said = [lotWords(lot), ...doubts(pocket, lot)].join(". ");
    if (await hand.record(bagged(await pictured(shot), lot, known), said, shot)) done();
  };
  const later = async () => {
    if (await hand.record(shotForLater(await pictured(shot), label, known), photoOnlyWords(label), shot)) done();
  };
  return (
    <>
      {picture && <BagCount known={known} overview={overviewIn(pocket)} label={label} taken={{ shot, picture, labels: [label] }} chosen={(lot) => void bag({ label, ...lot })} again={done} />}
      <div class="actions two">
        <button type="button" onClick={() => void later()}>{say("work.what.later")}</button>
        <button type="button" onClick={other}>{say("work.what.else")}</button>
      </div>
    </>
  );
}

/** What this phone says of a bagging by itself: the count beside the set's, look-alikes in one bag. */
function doubts(pocket: Pocket, { label, set, n }: Lot): string[] {
  const found = pocket.sets.find((each) => each.set === set);
  const container = pocket.containers.find((each) => each.labels.includes(label));
  const off = countOff(found, n);
  const alike = alikeIn(container, found);
  return [
    ...(off > 0 ? [say("count.over", { set, n: off })] : off < 0 ? [say("count.under", { set, n: -off })] : []),
    ...(alike.length ? [say("count.alike", { others: alike.join(", "), label: shown(label) })] : []),
  ];
}

/** What the bagging parts want to know, from the pocket. */
export function knownFrom(pocket: Pocket): Known {
  return {
    sets: pocket.sets.map((each) => each.set),
    labels: Object.fromEntries(pocket.labels.filter((each) => !each.retired).map((each) => [each.code, each.thing])),
    photos: pocket.photos.length,
    zone: pocket.zones[0] ?? null,
    lies: Object.fromEntries(pocket.containers.map((each) => [each.container, each.contents.flatMap(({ set }) => (set ? [set] : []))])),
  };
}
