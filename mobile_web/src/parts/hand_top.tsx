import type { ComponentChildren } from "preact";

import { phone } from "../outbox/sight";
import { pathOf } from "../route";
import { say } from "../words/say";
import { useTitle } from "./title";
import { Who } from "./who";

interface Props {
  readonly job: string | null;
  readonly title: string;
  /** Whether the screen records something, so that it must know who holds the phone. */
  readonly records?: boolean;
  readonly children: ComponentChildren;
}

/** The frame of a screen in the hand: the way up, who holds the phone, one heading. */
export function HandTop({ job, title, records = false, children }: Props) {
  useTitle(job === null ? title : `${job}: ${title}`);
  const up = job === null ? "/" : pathOf({ screen: "findings", job });
  const by = phone.value?.by;
  return (
    <div class="hand">
      <div class="top">
        <p class="up">
          <a href={up}>{job ?? say("job.all")}</a>
        </p>
        {by && <p class="quiet">{say("who.held", { by })}</p>}
      </div>
      <h1 tabIndex={-1}>{title}</h1>
      {records && phone.value && !by ? <Who /> : (!records || phone.value) && children}
    </div>
  );
}
