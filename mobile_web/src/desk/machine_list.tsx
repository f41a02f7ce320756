import type { AccessGraph } from "../sync/desk";
import { say } from "../words/say";
import { kindWords, owedWords } from "./kind";
import { StateMark } from "./state_mark";

/** The same map as a table: for those who do not see a drawing, and to read down. */
export function MachineList({ graph, choose }: { readonly graph: AccessGraph; readonly choose: (name: string) => void }) {
  const over = (name: string) => graph.edges.filter((edge) => edge.kind === "hides" && edge.target === name).map((edge) => edge.source);
  const under = (name: string) => graph.edges.filter((edge) => edge.kind === "hides" && edge.source === name).map((edge) => edge.target);
  return (
    <details class="as-list">
      <summary>{say("machine.list")}</summary>
      <table class="desk-table">
        <thead>
          <tr>
            {(["thing", "what", "state", "over", "under", "holds"] as const).map((column) => (
              <th key={column} scope="col">{say(`machine.${column}`)}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {graph.nodes.map((node) => (
            <tr key={node.name}>
              <th scope="row">
                <button type="button" onClick={() => choose(node.name)}>{node.name}</button>
              </th>
              <td>{kindWords(node)}</td>
              <td>
                <StateMark state={node.state} /> <span class="quiet">{owedWords(node)}</span>
              </td>
              <td>{over(node.name).join(", ")}</td>
              <td>{under(node.name).join(", ")}</td>
              <td>{node.holds}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
