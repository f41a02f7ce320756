import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { asPrinted, shown } from "../scan/label_code";
import { getLabel } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";

/** What a label is bound to; a label that is bound to nothing lands here too. */
export function Label({ code }: { readonly code: string }) {
  const named = shown(code);
  useTitle(say("label.title", { code: named }));
  const [loaded, again] = useLoaded(() => getLabel(code));
  return (
    <>
      <header>
        <h1 tabIndex={-1}>{say("label.title", { code: named })}</h1>
      </header>
      <Waiting loaded={loaded} what={code} again={again}>
        {({ sentence, job, container }) => (
          <>
            <p class="headline">{job && container === code ? say("label.at", { label: named, job }) : asPrinted(sentence)}</p>
            <p class="actions">
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
    </>
  );
}
