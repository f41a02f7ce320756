import { getUndo, type UndoPath } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { served } from "../words/served";
import { say } from "../words/say";

/** The way back to a thing, drawn from the outside in: what must come off again, how long, what it spends. */
export function UndoView({ job, element }: { readonly job: string; readonly element: string }) {
  const [loaded] = useLoaded(() => getUndo(job, element));
  if (loaded === "waiting") return null;
  if ("trouble" in loaded) return <p>{loaded.trouble}</p>;
  return <Path path={loaded.here} />;
}

function Path({ path }: { readonly path: UndoPath }) {
  return (
    <section>
      <h3>{say("undo.title")}</h3>
      <p>{served(path.sentence, path.forms)}</p>
      {path.steps.length > 0 && (
        <ol class="plain way-in">
          {path.steps.map((step, index) => (
            <li key={step.part}>
              <span class="step">{index + 1}</span>
              <span>
                <strong>{say("undo.off", { part: step.part })}</strong>
                <span class="quiet">
                  {say("undo.n.minutes", { n: step.minutes })}
                  {step.guessed && <> {say("undo.guessed")}</>}
                  {step.undone.length > 0 && <> · {say("undo.first", { what: step.undone.join(", ") })}</>}
                </span>
              </span>
            </li>
          ))}
          <li class="there">
            <span class="step" aria-hidden="true">◆</span> <strong>{path.element}</strong>
          </li>
        </ol>
      )}
      {path.steps.length > 0 && <Costs path={path} />}
    </section>
  );
}

function Costs({ path }: { readonly path: UndoPath }) {
  const lines: readonly (readonly [string, readonly string[]])[] = [
    [say("undo.minutes"), [say("undo.n.minutes", { n: path.minutes })]],
    [say("undo.spent"), path.spent],
    [say("undo.torques"), path.torques],
    [say("undo.openings"), path.openings],
    [say("undo.again"), path.again],
    [say("undo.maybe"), path.in_the_way],
  ];
  return (
    <dl class="facts">
      {lines
        .filter(([, said]) => said.length > 0)
        .map(([name, said]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{said.join(", ")}</dd>
          </div>
        ))}
    </dl>
  );
}
