import { HandTop } from "../parts/hand_top";
import { OldNews } from "../parts/old_news";
import { PhotoTile } from "../parts/photo_tile";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { getNext, type NextSteps, type Step } from "../sync/hand";
import { useChanges } from "../sync/live";
import { useLoaded } from "../sync/loaded";
import { served } from "../words/served";
import { say } from "../words/say";

interface Props {
  readonly job: string;
}

/** What next: one thing big, three small, what to fetch; doing something else is as good. */
export function Next({ job }: Props) {
  const [loaded, again] = useLoaded(() => getNext(job));
  useChanges(job, again);
  return (
    <HandTop job={job} title={say("next.title")}>
      <Waiting loaded={loaded} what={say("next.title")} again={again}>
        {({ here, old }) => (
          <>
            <OldNews job={job} old={old} />
            <Steps job={job} steps={here} />
          </>
        )}
      </Waiting>
    </HandTop>
  );
}

function Steps({ job, steps }: Props & { readonly steps: NextSteps }) {
  const { big, small, waiting } = steps;
  if (!big) return <p class="headline">{say(waiting.length ? "next.waiting.only" : "next.nothing")}</p>;
  return (
    <>
      <OneStep job={job} step={big} big />
      {small.length > 0 && <h2>{say("next.or")}</h2>}
      {small.map((step) => (
        <OneStep key={step.kind + step.element} job={job} step={step} />
      ))}
      <p class="quiet">{say("next.free")}</p>
      {waiting.length > 0 && (
        <details>
          <summary>{say("next.waits", { n: waiting.length })}</summary>
          <ul class="plain">
            {waiting.map((step) => (
              <li key={step.kind + step.element}>
                {served(step.sentence, step.forms)} <span class="quiet">{say("next.waits.for", { why: served(step.waits_for, step.forms) })}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function OneStep({ job, step, big = false }: Props & { readonly step: Step; readonly big?: boolean }) {
  return (
    <article class={big ? "card step first" : "card step"}>
      <p class={big ? "headline" : "title"}>
        {served(step.sentence, step.forms)}
      </p>
      {step.why && <p>{served(step.why, step.forms)}</p>}
      {(step.fetch.length > 0 || step.bring.length > 0) && (
        <ul class="plain fetch">
          {step.fetch.map(({ container, label, place, n }) => (
            <li key={container}>
              <a class="button" href={pathOf({ screen: "container", job, container })}>
                <span class="code">{say("next.fetch", { bag: label ?? container })}</span>
                <span class="quiet">{say("entry.pieces", { n })}{place ? ` · ${place}` : ""}</span>
              </a>
            </li>
          ))}
          {step.bring.map((what) => (
            <li key={what}>{say("next.bring", { what })}</li>
          ))}
        </ul>
      )}
      {big && step.photos.length > 0 && (
        <div class="strip">
          {step.photos.map((photo) => (
            <PhotoTile key={photo.photo} job={job} photo={photo} />
          ))}
        </div>
      )}
    </article>
  );
}
