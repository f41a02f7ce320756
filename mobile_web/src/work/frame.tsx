import type { ComponentChildren } from "preact";

import { phone } from "../outbox/sight";
import { useTitle } from "../parts/title";
import { UndoBar } from "../parts/undo_bar";
import { Who } from "../parts/who";
import type { OnPhone } from "../pocket/shape";
import { useJob, type InHand } from "../pocket/use_job";
import { pathOf, type Route } from "../route";
import { say } from "../words/say";
import { AsOf } from "./as_of";

interface Props {
  readonly job: string;
  readonly title: string;
  readonly up: Route;
  readonly upName: string;
  readonly children: (hand: InHand, here: OnPhone) => ComponentChildren;
  /** What stays in sight at the foot of the screen. */
  readonly foot?: (hand: InHand, here: OnPhone) => ComponentChildren;
}

/** What every screen at the machine has: the way up, who holds the phone, how old the picture is, the undo bar. */
export function Frame({ job, title, up, upName, children, foot }: Props) {
  useTitle(`${job}: ${title}`);
  return (
    <div class={foot ? "bag work hub" : "bag work"}>
      <div class="top">
        <p class="up">
          <a href={pathOf(up)}>{upName}</a>
        </p>
        <h1 tabIndex={-1}>{title}</h1>
      </div>
      {phone.value && (phone.value.by ? <Held job={job} {...(foot ? { foot } : {})}>{children}</Held> : <Who />)}
    </div>
  );
}

function Held({ job, children, foot }: Pick<Props, "job" | "children" | "foot">) {
  const hand = useJob(job);
  if (!hand.here) return hand.missing ? <Missing why={hand.missing} again={hand.again} /> : <p role="status" class="waiting">{say("fetching", { what: job })}</p>;
  return (
    <>
      {children(hand, hand.here)}
      {hand.trouble && <p role="alert">{hand.trouble}</p>}
      <AsOf here={hand.here} />
      <div class="foot">
        <UndoBar understood={hand.understood} />
        {foot?.(hand, hand.here)}
      </div>
    </>
  );
}

function Missing({ why, again }: { readonly why: string; readonly again: () => void }) {
  return (
    <div class="trouble" role="alert">
      <p>{say("work.missing")} {why}</p>
      <button type="button" onClick={again}>{say("again")}</button>
    </div>
  );
}
