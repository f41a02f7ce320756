import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";

import { SeverityMark } from "../parts/severity";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getAccess, getDeskList, type AccessGraph, type AccessNode, type DeskFinding } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { served } from "../words/served";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";
import { kindWords, owedWords } from "./kind";
import { KeyHelp } from "./key_help";
import { useKeys } from "./keys";
import { layout } from "./layout";
import { MachineDrawing } from "./machine_drawing";
import { MachineList } from "./machine_list";
import { StateMark } from "./state_mark";
import { UndoView } from "./undo_view";

const STATES: readonly AccessNode["state"][] = ["buried", "off", "half", "back", "untouched"];
const ZOOMS = [0.4, 0.5, 0.65, 0.8, 1, 1.25, 1.6];

/** The machine drawn as what lies over what: what is off, what is back, what is shut in unfinished. */
export function Machine({ job, about }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.machine")}`);
  const [loaded, again] = useLoaded(() => getAccess(job));
  const [list] = useLoaded(() => getDeskList(job));
  const findings = list !== "waiting" && "here" in list ? list.here.findings : [];
  return (
    <>
      <DeskJobHead job={job} here="machine" />
      <Waiting loaded={loaded} what={say("desk.machine")} again={again}>
        {(graph) => (graph.nodes.length ? <Map {...{ job, graph, findings, about }} /> : <p class="headline">{say("machine.none")}</p>)}
      </Waiting>
    </>
  );
}

interface MapProps {
  readonly job: string;
  readonly graph: AccessGraph;
  readonly findings: readonly DeskFinding[];
  readonly about: string;
}

function Map({ job, graph, findings, about }: MapProps) {
  const [chosen, setChosen] = useState(about);
  const drawing = useMemo(() => layout(graph), [graph]);
  const [zoom, setZoom] = useState(ZOOMS.indexOf(1));
  const room = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => setZoom(fitting(drawing.width, room.current?.clientWidth ?? 0)), [drawing]);
  const nearer = () => setZoom((old) => Math.min(ZOOMS.length - 1, old + 1));
  const further = () => setZoom((old) => Math.max(0, old - 1));
  useKeys({ "+": nearer, "-": further, "0": () => setZoom(ZOOMS.indexOf(1)) });
  return (
    <>
      {graph.contradictions.map((said) => (
        <p key={said} class="contradiction" role="alert">{served(said, graph.forms)}</p>
      ))}
      <ul class="plain legend" aria-label={say("machine.legend")}>
        {STATES.map((state) => (
          <li key={state}>
            <StateMark state={state} /> <strong>{graph.nodes.filter((node) => node.state === state).length}</strong>
          </li>
        ))}
      </ul>
      <div class="map-and-chosen">
        <div ref={room}>
          <div class="tools" role="group" aria-label={say("machine.tools")}>
            <button type="button" onClick={nearer}>{say("pair.nearer")}</button>
            <button type="button" onClick={further}>{say("pair.further")}</button>
          </div>
          <MachineDrawing {...{ drawing, findings, chosen, setChosen }} zoom={ZOOMS[zoom] ?? 1} />
        </div>
        <Chosen job={job} graph={graph} findings={findings} chosen={chosen} />
      </div>
      <KeyHelp keys={[["Tab", "keys.through"], ["Enter", "keys.choose"], ["+ −", "keys.zoom"]]} />
      <MachineList graph={graph} choose={setChosen} />
    </>
  );
}

/** Give the largest zoom at which a drawing fits the room, none so small that its words are lost. */
function fitting(width: number, room: number): number {
  const fits = ZOOMS.filter((zoom) => zoom <= 1 && width * zoom <= room);
  return Math.max(ZOOMS.indexOf(0.8), ZOOMS.indexOf(fits.at(-1) ?? 0));
}

interface ChosenProps {
  readonly job: string;
  readonly graph: AccessGraph;
  readonly findings: readonly DeskFinding[];
  readonly chosen: string;
}

/** What is known of the thing that was chosen: its state, what is on the list about it, the way back to it. */
function Chosen({ job, graph, findings, chosen }: ChosenProps) {
  const node = graph.nodes.find((each) => each.name === chosen);
  if (!node) return <aside class="chosen card"><p>{say("machine.choose")}</p></aside>;
  const holders = graph.nodes.filter((each) => each.holds === chosen);
  const own = findings.filter(({ finding }) => finding.subject === chosen || holders.some((each) => each.name === finding.subject));
  return (
    <aside class="chosen card" aria-live="polite">
      <h2>{node.name}</h2>
      <p>
        {kindWords(node)} · <StateMark state={node.state} /> {owedWords(node)}
      </p>
      {holders.length > 0 && (
        <ul>
          {holders.map((each) => (
            <li key={each.name}>
              {each.name}: {owedWords(each) || say(`state.${each.state}`)}
            </li>
          ))}
        </ul>
      )}
      {own.map(({ finding }) => (
        <p key={finding.key}>
          <SeverityMark severity={finding.severity} /> {served(finding.sentence, finding.forms)}
        </p>
      ))}
      <UndoView key={chosen} job={job} element={chosen} />
    </aside>
  );
}
