import { useEffect, useState } from "preact/hooks";

import { textOf, withPhoto, type Act, type Answers } from "../acts/act";
import { cautionsOf } from "../acts/cautions";
import type { Shot } from "../camera/camera";
import type { Pictured } from "../draft/looks";
import { sha256 } from "../outbox/sha256";
import type { InHand } from "../pocket/use_job";
import type { Pocket } from "../pocket/shape";
import { say, type Message } from "../words/say";
import { Asked } from "./asked";
import { ReadFirst } from "./read_first";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly act: Act;
  readonly first: Answers;
  readonly shot: Shot | null;
  /** The act is recorded; what it asks next, if anything. */
  readonly done: (follow: ReturnType<NonNullable<Act["follow"]>>) => void;
  readonly leave: () => void;
}

/** One act: its questions one after another, the caution that it calls for, then it is recorded by itself. */
export function Form({ hand, pocket, act, first, shot, done, leave }: Props) {
  const [answers, setAnswers] = useState<Answers>(first);
  const question = act.next(pocket, answers);
  const thing = ["name", "from", "item"].map((key) => textOf(answers, key)).join(" ");
  return (
    <section class="form" aria-label={say(`act.${act.name}` as Message)}>
      <p class="label">{say(`act.${act.name}` as Message)}</p>
      {question ? (
        <Asked key={question.key} pocket={pocket} question={question} answered={(given) => setAnswers({ ...answers, ...given })} />
      ) : (
        <ReadFirst job={pocket.job} messages={cautionsOf(act.name, thing, pocket.licensed)}>
          <Recording hand={hand} pocket={pocket} act={act} answers={answers} shot={shot} done={done} />
        </ReadFirst>
      )}
      <div class="actions">
        <button type="button" onClick={leave}>{say("work.leave")}</button>
      </div>
    </section>
  );
}

type RecordingProps = Pick<Props, "hand" | "pocket" | "act" | "shot" | "done"> & { readonly answers: Answers };

/** Records once, as soon as nothing more is asked. */
function Recording({ hand, pocket, act, answers, shot, done }: RecordingProps) {
  useEffect(() => {
    void recorded(hand, pocket, act, { answers, shot }).then((kept) => kept && done(act.follow?.(answers, pocket) ?? null));
  }, []);
  return <p role="status">{act.said(answers, pocket)}</p>;
}

async function recorded(hand: InHand, pocket: Pocket, act: Act, { answers, shot }: { answers: Answers; shot: Shot | null }): Promise<boolean> {
  const said = act.said(answers, pocket);
  const drafts = act.entries(pocket, answers);
  if (!drafts.length) {
    hand.say(said);
    return true;
  }
  const element = ["set", "part", "connection", "opening", "isolation", "fluid", "setting", "renewal", "item"]
    .map((field) => drafts.at(-1)?.[field])
    .find((value) => typeof value === "string");
  const photo = shot && { kind: "photo-added", ...(await pictured(shot)), shape: act.shape, element };
  return hand.record(withPhoto(drafts, photo), said, shot ?? undefined);
}

/** A shot as entries name it. */
export async function pictured({ bytes, width, height }: Shot): Promise<Pictured> {
  const digest = await sha256(bytes);
  return { photo: digest, sha256: digest, width, height };
}
