import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { getLabel } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";

/** What a label is bound to; a label that is bound to nothing lands here too. */
export function Label({ code }: { readonly code: string }) {
  useTitle(say("label.title", { code }));
  const [loaded, again] = useLoaded(() => getLabel(code));
  return (
    <>
      <header>
        <h1 tabIndex={-1}>{say("label.title", { code })}</h1>
      </header>
      <Waiting loaded={loaded} what={code} again={again}>
        {({ sentence, job, container }) => (
          <>
            <p class="headline">{sentence}</p>
            <p class="actions">
              {job && container && (
                <a class="button" href={pathOf({ screen: "container", job, container })}>
                  {say("label.to.container", { container })}
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
