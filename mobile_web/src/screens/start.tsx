import { useEffect, useRef } from "preact/hooks";

import { alarm } from "../parts/alarm";
import { HandTop } from "../parts/hand_top";
import { OldNews } from "../parts/old_news";
import { PhotoTile } from "../parts/photo_tile";
import { Waiting } from "../parts/waiting";
import { getStartGuard, type StartGuard } from "../sync/hand";
import { useChanges } from "../sync/live";
import { useLoaded } from "../sync/loaded";
import { useActs } from "../sync/use_acts";
import { checkWords } from "../words/check";
import { say } from "../words/say";
import { served } from "../words/served";

interface Props {
  readonly job: string;
}

/** About to turn or start it: what stands in the way, and the cautions; there is no green answer. */
export function Start({ job }: Props) {
  return (
    <HandTop job={job} title={say("start.title")}>
      <Guard job={job} />
    </HandTop>
  );
}

function Guard({ job }: Props) {
  const [loaded, again] = useLoaded(() => getStartGuard(job));
  const { act, trouble } = useActs(job);
  useChanges(job, again);
  const asked = useRef(false);
  useEffect(() => {
    if (!asked.current) void act([{ kind: "start-asked", what: say("start.what") }], "");
    asked.current = true;
  }, []);
  return (
    <Waiting loaded={loaded} what={say("start.title")} again={again}>
      {({ here, old }) => (
        <>
          <OldNews job={job} old={old} />
          {trouble && <p role="alert">{trouble}</p>}
          <Answer job={job} guard={here} old={old !== null} />
        </>
      )}
    </Waiting>
  );
}

function Answer({ job, guard, old }: Props & { readonly guard: StartGuard; readonly old: boolean }) {
  const stands = guard.findings.length > 0;
  useEffect(() => {
    if (stands) alarm();
  }, [stands]);
  return (
    <>
      <p class={stands ? "headline stands" : "headline"} role={stands ? "alert" : "status"}>
        {headlineOf(guard)}
        {old && ` ${say("start.old")}`}
      </p>
      {guard.findings.map((finding) => (
        <article class="card in-the-way" key={finding.sentence}>
          <h2>
            {served(finding.sentence, finding.forms)}
          </h2>
          <p>{served(finding.to_do, finding.forms)}</p>
          {finding.photos.length > 0 && (
            <div class="strip">
              {finding.photos.map((photo) => (
                <PhotoTile key={photo.photo} job={job} photo={photo} />
              ))}
            </div>
          )}
        </article>
      ))}
      <ul class="cautions mind">
        {guard.cautions.map((caution) => (
          <li key={caution}>{served(caution, guard.forms)}</li>
        ))}
      </ul>
      {guard.not_checked.length > 0 && (
        <section>
          <h2>{say("unchecked.title")}</h2>
          <p class="quiet">{say("unchecked.why")}</p>
          <ul>
            {guard.not_checked.map((check) => (
              <li key={check}>{checkWords(check)}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

/** Say how it stands: what must be cleared, or that eyes decide, and how much nobody checked. */
function headlineOf({ findings, not_checked }: StartGuard): string {
  const stands = findings.length ? say("start.stands", { n: findings.length }) : say("start.eyes");
  return not_checked.length ? `${stands} ${say("start.unchecked", { n: not_checked.length })}` : stands;
}
