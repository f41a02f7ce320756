import { useEffect, useMemo, useState } from "preact/hooks";

import "../styles/bag.css";
import "../styles/pins.css";
import "../words/bagging";
import type { Shot } from "../camera/camera";
import { broken, phone } from "../outbox/sight";
import { BagAim } from "../parts/bag_aim";
import { BagCount } from "../parts/bag_count";
import { BagLabel } from "../parts/bag_label";
import { useTitle } from "../parts/title";
import { UndoBar } from "../parts/undo_bar";
import { Who } from "../parts/who";
import { useOverview } from "../pocket/use_overview";
import { pathOf } from "../route";
import { Scanner } from "../scan/scanner";
import { useBagging, type Taken } from "../sync/use_bagging";
import { say } from "../words/say";

/** Bag these: camera live, label read without a tap, photo, count, place; it answers what it understood. */
export function Bag({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("bag.title")}`);
  return (
    <div class="bag">
      <p class="up">
        <a href={pathOf({ screen: "findings", job })}>{job}</a>
      </p>
      <h1 tabIndex={-1}>{say("bag.title")}</h1>
      {broken.value && <p role="alert" class="trouble">{broken.value}</p>}
      {phone.value && (phone.value.by ? <Bagging job={job} /> : <Who />)}
    </div>
  );
}

function Bagging({ job }: { readonly job: string }) {
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const { bagging, acts, understood, trouble, bag, keepForLater } = useBagging(job);
  const overview = useOverview(job, acts);
  const [taken, setTaken] = useState<Taken | null>(null);
  const take = (shot: Shot, labels: readonly string[], later: boolean) => {
    if (later) void keepForLater(shot, labels.length === 1 ? (labels[0] ?? null) : null);
    else setTaken({ shot, labels, picture: URL.createObjectURL(new Blob([shot.bytes], { type: shot.type })) });
  };
  const leave = () => {
    if (taken) URL.revokeObjectURL(taken.picture);
    setTaken(null);
  };
  if (!bagging) return <p role="status">{say("fetching", { what: job })}</p>;
  const { known } = bagging;
  const [label] = taken?.labels ?? [];
  return (
    <>
      <div class="aim" hidden={taken !== null}>
        <BagAim job={job} known={known} scanner={scanner} taken={take} />
      </div>
      {taken && taken.labels.length !== 1 && (
        <BagLabel
          known={known}
          labels={taken.labels}
          picture={taken.picture}
          chosen={(code) => setTaken({ ...taken, labels: [code] })}
          again={leave}
        />
      )}
      {taken && taken.labels.length === 1 && label !== undefined && (
        <BagCount
          known={known}
          overview={overview}
          label={label}
          taken={taken}
          chosen={(lot) => void bag(taken.shot, { label, ...lot }).then((kept) => kept && leave())}
          again={leave}
        />
      )}
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
      {bagging.trouble && (
        <p class="quiet">
          {bagging.trouble} {say("bag.old")}
        </p>
      )}
    </>
  );
}
