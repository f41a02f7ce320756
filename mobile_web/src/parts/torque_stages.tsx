import type { TorqueRow } from "../sync/api";
import { say } from "../words/say";
import { torqueWords } from "../words/newton_metres";
import { day, stageWords } from "../words/torque";

type Stage = TorqueRow["stages"][number];

/** What each stage asks, and which wrench of the job suits it. */
export function TorqueStages({ row, on }: { readonly row: TorqueRow; readonly on: string | null }) {
  return (
    <>
      <h3>{say("torque.stages")}</h3>
      {row.warnings.length > 0 && <p>{say("torque.stages.doubt")}</p>}
      <ol class="plain stages">
        {row.stages.map((stage) => (
          <li key={stage.stage}>
            <strong>
              {row.stages.length > 1 && <>{say("torque.stage", { stage: stage.stage })}: </>}
              {stageWords(stage)}
            </strong>
            {stage.low_nm !== null && <Wrenches wrenches={stage.wrenches} />}
          </li>
        ))}
      </ol>
      {row.drag_nm > 0 && <p>{say("torque.drag", { drag: torqueWords(row.drag_nm) })}</p>}
      {on && <p class="quiet">{say("torque.wrench.on", { when: day(on) })}</p>}
    </>
  );
}

function Wrenches({ wrenches }: { readonly wrenches: Stage["wrenches"] }) {
  const fit = wrenches.filter((wrench) => wrench.suits);
  const others = wrenches.filter((wrench) => !wrench.suits);
  return (
    <>
      <ul>
        {fit.map(({ wrench, setting_nm: setting, uncertainty_nm: spread }) => (
          <li key={wrench}>
            {say("torque.wrench.suits", { wrench, setting: torqueWords(setting ?? 0), spread: torqueWords(Number((spread ?? 0).toPrecision(2))) })}
          </li>
        ))}
        {fit.length === 0 && <li>{say("torque.wrench.none")}</li>}
      </ul>
      {others.length > 0 && (
        <details open={fit.length === 0}>
          <summary>{say("torque.wrench.others", { n: others.length })}</summary>
          <ul>
            {others.map(({ wrench, objections }) => (
              <li key={wrench}>{objections.join(" ")}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
