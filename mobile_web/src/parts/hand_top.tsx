import type { ComponentChildren } from "preact";

import { pathOf } from "../route";
import { say } from "../words/say";
import { useTitle } from "./title";

interface Props {
  readonly job: string | null;
  readonly title: string;
  readonly children: ComponentChildren;
}

/** The frame of a screen in the hand: the way up, one heading. */
export function HandTop({ job, title, children }: Props) {
  useTitle(job === null ? title : `${job}: ${title}`);
  const up = job === null ? "/" : pathOf({ screen: "findings", job });
  return (
    <div class="hand">
      <p class="up">
        <a href={up}>{job ?? say("job.all")}</a>
      </p>
      <h1 tabIndex={-1}>{title}</h1>
      {children}
    </div>
  );
}
