import { useEffect, useState } from "preact/hooks";

import { isBlurred } from "../camera/sharpness";
import { counted, isCorrected, marksOf, type Marks } from "../draft/marks";
import { lookAt, type QuickLook } from "../sync/look";
import type { Taken } from "../sync/use_bagging";
import { say } from "../words/say";

/** Have a photo counted while its count pad is open; what comes too late is not waited for. */
export function useReading({ shot }: Taken) {
  const [looked, setLooked] = useState<QuickLook | "looking" | null>("looking");
  const [marks, setMarks] = useState<Marks | null>(null);
  const [blurred, setBlurred] = useState(false);
  useEffect(() => {
    let left = false;
    void isBlurred(shot).then((found) => left || setBlurred(found === true));
    void lookAt(shot).then((found) => {
      if (left) return;
      setLooked(found);
      setMarks(found && marksOf(found.outlines));
    });
    return () => {
      left = true;
    };
  }, [shot]);
  const here = looked === "looking" ? null : looked;
  const changed = marks !== null && isCorrected(marks);
  const count = marks && changed ? counted(marks) : here?.is_sure ? here.count : null;
  return { looked: here, marks, setMarks, blurred, count, sentence: sentenceOf(looked, count, changed) };
}

function sentenceOf(looked: QuickLook | "looking" | null, count: number | null, changed: boolean): string {
  if (looked === "looking") return say("reading.looking");
  if (looked === null) return say("reading.later");
  if (changed) return say("reading.corrected", { count: count ?? 0 });
  if (count !== null) return say("reading.count", { count });
  const { low, high } = looked;
  return low === high ? say("reading.unsure", { count: high }) : say("reading.between", { low, high });
}
