import type { TorqueRow } from "../sync/api";
import { say } from "../words/say";
import { pullerWords, pullWords } from "../words/torque";

type Hole = TorqueRow["holes"][number];

/** Every hole of a set with what was pulled and what it owes, the open ones first. */
export function TorqueHoles({ row }: { readonly row: TorqueRow }) {
  return (
    <table class="holes">
      <caption>{`${row.set}: ${say("torque.holes")}`}</caption>
      <thead>
        <tr>
          <th scope="col">{say("torque.hole")}</th>
          <th scope="col">{say("torque.pulled")}</th>
        </tr>
      </thead>
      <tbody>
        {row.holes.map((hole) => (
          <tr key={hole.hole}>
            <th scope="row">
              <Mark state={hole.state} /> {hole.hole} <span class="quiet">{say(`torque.state.${hole.state}`)}</span>
            </th>
            <td>
              {hole.pulls.map((pull) => (
                <div key={pull.stage}>
                  {pullWords(pull, row.stages.length)} <span class="quiet">{pullerWords(pull)}</span>
                </div>
              ))}
              {hole.state === "open" && <strong>{hole.why}</strong>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The same shapes as in the drawing: a circle is open, a filled square is done. */
function Mark({ state }: { readonly state: Hole["state"] }) {
  if (state === "untouched") return null;
  return (
    <svg class="mark" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      {state === "done" ? (
        <rect x="1" y="1" width="14" height="14" fill="currentColor" />
      ) : (
        <circle cx="8" cy="8" r="6.5" fill="none" stroke="currentColor" stroke-width="2" />
      )}
    </svg>
  );
}
