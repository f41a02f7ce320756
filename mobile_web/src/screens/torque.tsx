import { JobHead } from "../parts/job_head";
import { useTitle } from "../parts/title";
import { TorqueHoles } from "../parts/torque_holes";
import { TorqueStages } from "../parts/torque_stages";
import { Waiting } from "../parts/waiting";
import { getTorqueSheet, type TorqueRow, type TorqueSheet } from "../sync/api";
import { useLive } from "../sync/loaded";
import { say } from "../words/say";
import { served } from "../words/served";
import { exactWords, orderWords, standing } from "../words/torque";

/** The torque sheet of one job: each set with a value, those with open holes first. */
export function Torque({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("torque.title")}`);
  const [loaded, again] = useLive(job, () => getTorqueSheet(job));
  return (
    <>
      <JobHead job={job} here="torque" />
      <Waiting loaded={loaded} what={say("torque.title")} again={again}>
        {(sheet) => <Sheet sheet={sheet} />}
      </Waiting>
    </>
  );
}

/** All rows of a torque sheet, and the sets that have no value. */
export function Sheet({ sheet }: { readonly sheet: TorqueSheet }) {
  return (
    <>
      <aside class="cautions" aria-label={say("caution.title")}>
        <ul>
          {sheet.cautions.map((each) => served(each)).map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </aside>
      {sheet.rows.length === 0 && (
        <>
          <p class="headline">{say("torque.none")}</p>
          <p>{say("torque.none.more")}</p>
        </>
      )}
      {sheet.rows.map((row) => (
        <SetCard key={row.set} row={row} on={sheet.on} />
      ))}
      {sheet.without_value.length > 0 && (
        <section class="card">
          <h2>{say("torque.without")}</h2>
          <p>{say("torque.without.more")}</p>
          <ul>
            {sheet.without_value.map((name) => (
              <li key={name}>{name}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

/** One set; it is folded to its heading when it has no hole open and nothing is in doubt. */
function SetCard({ row, on }: { readonly row: TorqueRow; readonly on: string | null }) {
  return (
    <article class="card">
      <details class="whole-set" open={row.open_holes.length > 0 || row.warnings.length > 0}>
        <summary>
          <h2>
            {row.set} {row.kind && <span class="quiet">{row.kind}</span>}
          </h2>
          <span class="title">{standing(row)}</span>
        </summary>
        <div class="torque">
          <div>
            {row.warnings.length > 0 && <Warnings warnings={row.warnings} />}
            <Facts row={row} />
            <TorqueStages row={row} on={on} />
          </div>
          <div>
            {row.drawing && <Drawing set={row.set} drawing={row.drawing} />}
            <TorqueHoles row={row} />
          </div>
        </div>
      </details>
    </article>
  );
}

function Warnings({ warnings }: { readonly warnings: readonly string[] }) {
  return (
    <div class="cautions">
      <h3>{say("torque.warnings")}</h3>
      <ul>
        {warnings.map((warning) => (
          <li key={warning}>{served(warning)}</li>
        ))}
      </ul>
    </div>
  );
}

function Facts({ row }: { readonly row: TorqueRow }) {
  const { typed_by: by, checked_by: who } = row;
  const facts: readonly (readonly [string, string])[] = [
    [say("torque.value"), row.as_written || say("torque.value.none")],
    [say("torque.exact"), exactWords(row)],
    [say("torque.source"), row.source],
    [say("torque.superseded"), row.superseded_by],
    [say("torque.people"), who.length ? say("torque.checked", { by, who: who.join(", ") }) : say("torque.unchecked", { by })],
    [say("torque.condition"), row.condition],
    [say("torque.order"), orderWords(row.drawing)],
    [say("torque.thread"), row.warnings.includes(row.plausibility) ? "" : row.plausibility],
  ];
  return (
    <dl class="facts">
      {facts
        .filter(([, said]) => said)
        .map(([name, said], place) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd class={place === 0 ? "name" : undefined}>{said}</dd>
          </div>
        ))}
    </dl>
  );
}

/** The pattern as a picture: an SVG shown this way runs nothing and carries its own black and white. */
function Drawing({ set, drawing }: { readonly set: string; readonly drawing: NonNullable<TorqueRow["drawing"]> }) {
  return (
    <figure class="pattern">
      <img src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(drawing.svg)}`} alt={`${set}. ${drawing.title}`} />
      <figcaption class="quiet">{drawing.remark}</figcaption>
    </figure>
  );
}
