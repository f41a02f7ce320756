import "../styles/hand.css";
import { HandTop } from "../parts/hand_top";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { shown } from "../scan/label_code";
import { getLabel } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";
import { served } from "../words/served";

/** What a label is bound to; a label that is bound to nothing lands here too. */
export function Label({ code }: { readonly code: string }) {
  const named = shown(code);
  const [loaded, again] = useLoaded(() => getLabel(code));
  return (
    <HandTop job={null} title={say("label.title", { code: named })}>
      <Waiting loaded={loaded} what={named} again={again}>
        {({ sentence, forms, job, container }) => (
          <>
            <p class="headline">
              {job && container === code ? say("label.at", { label: named, job }) : served(sentence, forms)}
            </p>
            <p class="actions low">
              {job && container && (
                <a class="button main" href={pathOf({ screen: "container", job, container })}>
                  {say("label.to.container", { container: shown(container) })}
                </a>
              )}
              <a class="button" href="/">
                {say("label.to.jobs")}
              </a>
            </p>
          </>
        )}
      </Waiting>
    </HandTop>
  );
}
