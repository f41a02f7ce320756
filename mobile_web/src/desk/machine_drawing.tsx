import type { AccessNode, DeskFinding } from "../sync/desk";
import { say } from "../words/say";
import { owedWords } from "./kind";
import { HEAD_HEIGHT, ROW_HEIGHT, type Box, type Drawing, type Line } from "./layout";
import { StateShape } from "./state_mark";

interface Props {
  readonly drawing: Drawing;
  readonly findings: readonly DeskFinding[];
  readonly chosen: string;
  readonly setChosen: (name: string) => void;
  readonly zoom: number;
}

/** The drawing: boxes from the outside down, lines to what each lies over; every box can be chosen. */
export function MachineDrawing({ drawing, findings, chosen, setChosen, zoom }: Props) {
  const { width, height, boxes, lines, apartFrom } = drawing;
  const subjects = new Set(findings.map(({ finding }) => finding.subject));
  return (
    <div class="drawing" tabIndex={0} role="region" aria-label={say("machine.drawing")}>
      <svg viewBox={`0 0 ${width} ${height}`} width={width * zoom} height={height * zoom} role="group" aria-label={say("machine.drawing")}>
        {lines.map((line) => (
          <Tie key={`${line.from.name}\n${line.to.name}`} line={line} lit={chosen === line.from.name || chosen === line.to.name} />
        ))}
        {apartFrom !== null && (
          <text x={12} y={apartFrom + 34} class="apart-head">{say("machine.apart")}</text>
        )}
        {boxes.map((box) => (
          <Thing key={box.name} box={box} chosen={chosen === box.name} listed={subjects} choose={() => setChosen(box.name)} />
        ))}
      </svg>
    </div>
  );
}

function Tie({ line, lit }: { readonly line: Line; readonly lit: boolean }) {
  const { from, to } = line;
  const [x1, y1, x2, y2] = [from.x + from.width / 2, from.y + from.height, to.x + to.width / 2, to.y];
  const bend = Math.max(24, (y2 - y1) / 2);
  return (
    <g class={lit ? "tie lit" : "tie"}>
      <path d={`M${x1} ${y1}C${x1} ${y1 + bend} ${x2} ${y2 - bend} ${x2} ${y2 - 8}`} stroke-dasharray={line.trusted ? undefined : "6 5"} />
      <path d={`M${x2 - 6} ${y2 - 10}L${x2} ${y2}L${x2 + 6} ${y2 - 10}Z`} class="tip" />
    </g>
  );
}

/** How many letters of a name fit into a box, and beside the corner that says that it is on the list. */
const HEAD_LETTERS = 25;
const CORNER_LETTERS = 21;

interface ThingProps {
  readonly box: Box;
  readonly chosen: boolean;
  readonly listed: ReadonlySet<string>;
  readonly choose: () => void;
}

function Thing({ box, chosen, listed, choose }: ThingProps) {
  const { node, holders } = box;
  const press = (event: KeyboardEvent) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    choose();
  };
  const onList = [node, ...holders].some((each) => listed.has(each.name));
  const label = [`${node.name}: ${stateWords(node)}`, ...holders.map((each) => `${each.name}: ${stateWords(each)}`)];
  return (
    <g class={`thing ${node.state}${chosen ? " chosen-one" : ""}`} role="button" tabindex={0} aria-pressed={chosen} aria-label={label.join("; ")} onClick={choose} onKeyDown={press}>
      <title>{label.join("\n")}</title>
      <rect x={box.x} y={box.y} width={box.width} height={box.height} rx={4} class="box" />
      {onList && <path d={`M${box.x + box.width - 26} ${box.y}h26v26Z`} class="on-list" />}
      <Words node={node} x={box.x} y={box.y + 4} head most={onList ? CORNER_LETTERS : HEAD_LETTERS} />
      {holders.length > 0 && <path d={`M${box.x} ${box.y + HEAD_HEIGHT}h${box.width}`} class="rule" />}
      {holders.map((each, row) => (
        <Words key={each.name} node={each} x={box.x} y={box.y + HEAD_HEIGHT + 4 + row * ROW_HEIGHT} />
      ))}
    </g>
  );
}

interface WordsProps {
  readonly node: AccessNode;
  readonly x: number;
  readonly y: number;
  readonly head?: boolean;
  readonly most?: number;
}

function Words({ node, x, y, head = false, most = HEAD_LETTERS }: WordsProps) {
  return (
    <>
      <g transform={`translate(${x + 10} ${y + 4})`} class={`state ${node.state}`}>
        <StateShape state={node.state} />
      </g>
      <text x={x + 34} y={y + 18} class={head ? "box-name" : "box-row"}>{cut(node.name, most)}</text>
      {head && (
        <text x={x + 34} y={y + 38} class="box-row">{cut(stateWords(node), 31)}</text>
      )}
    </>
  );
}

function stateWords(node: AccessNode): string {
  const word = say(`state.${node.state}`);
  const words = owedWords(node);
  return words && !words.startsWith(word) ? `${word}: ${words}` : words || word;
}

function cut(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}
