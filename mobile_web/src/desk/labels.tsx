import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { useLoaded } from "../sync/loaded";
import { getPrintScale, listLayouts, printLabels, type LabelLayout } from "../sync/release";
import { language } from "../words/language";
import { say } from "../words/say";
import { served } from "../words/served";
import { arrived } from "./arrived";
import { SheetPreview } from "./sheet_preview";

const KINDS = ["B", "T", "P", "C", "W", "H"] as const;
type Kind = (typeof KINDS)[number];

/** Labels and count mats: a layout, how many, where a part-used sheet begins, and whether the printer keeps sizes. */
export function Labels(_: { readonly about: string }) {
  useTitle(say("desk.labels"));
  const [loaded, again] = useLoaded(listLayouts);
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("desk.labels")}</h1>
      <Waiting loaded={loaded} what={say("desk.labels")} again={again}>
        {(layouts) => <Choose layouts={layouts} />}
      </Waiting>
    </>
  );
}

function Choose({ layouts }: { readonly layouts: readonly LabelLayout[] }) {
  const [name, setName] = useState(layouts.find((each) => each.mistakes === "")?.name ?? "");
  const [scale, setScale] = useState(1);
  const layout = layouts.find((each) => each.name === name);
  return (
    <div class="two-sides">
      <div>
        <fieldset class="layouts">
          <legend>{say("labels.layout")}</legend>
          {layouts.map((each) => (
            <label key={each.name} class="choice">
              <input type="radio" name="layout" disabled={each.mistakes !== ""} checked={each.name === name} onChange={() => setName(each.name)} />
              <span>
                {each.title} <span class="quiet">{layoutWords(each)}</span>
                {each.mistakes && <span class="mistakes">{each.mistakes}</span>}
              </span>
            </label>
          ))}
        </fieldset>
        {layout && <ScaleCheck layout={layout} scale={scale} setScale={setScale} />}
      </div>
      {layout && <Print key={layout.name} layout={layout} scale={scale} />}
    </div>
  );
}

function layoutWords({ paper_mm: paper, places, symbol_mm: symbol, level }: LabelLayout): string {
  const parts = [
    paper ? say("labels.paper", { width: paper[0] ?? 0, height: paper[1] ?? 0 }) : "",
    places ? say("labels.places", { n: places }) : "",
    symbol ? say("labels.symbol", { mm: symbol, level: level ?? "" }) : "",
  ];
  return parts.filter(Boolean).join(" · ");
}

function Print({ layout, scale }: { readonly layout: LabelLayout; readonly scale: number }) {
  const [count, setCount] = useState(layout.places || 1);
  const [start, setStart] = useState(1);
  const [kind, setKind] = useState<Kind>("B");
  const [said, setSaid] = useState("");
  const print = async (event: Event) => {
    event.preventDefault();
    const answer = await printLabels({ layout: layout.name, kind, count, start: layout.places > 1 ? start : null, scale, language: language.value });
    if ("trouble" in answer) return setSaid(answer.trouble);
    setSaid(say("labels.printed", { which: answer.here.words }));
    open(URL.createObjectURL(answer.here.pdf), "_blank", "noopener");
  };
  if (layout.kind === "mat") {
    return (
      <div>
        <SheetPreview layout={layout} start={1} count={0} />
        <a class="button" href={`/api/label-layouts/${encodeURIComponent(layout.name)}/mat.pdf?scale=${scale}&language=${language.value}`} target="_blank" rel="noopener">{say("labels.mat")}</a>
      </div>
    );
  }
  return (
    <form class="word" onSubmit={(event) => void print(event)}>
      <SheetPreview layout={layout} start={start} count={count} choose={setStart} />
      <label for="label-kind">{say("labels.kind")}</label>
      <select id="label-kind" value={kind} onChange={(event) => setKind(event.currentTarget.value as Kind)}>
        {KINDS.map((each) => (
          <option key={each} value={each}>{say(`labels.kind.${each}`)}</option>
        ))}
      </select>
      <Whole id="label-count" label={say("labels.count")} most={500} value={count} put={setCount} />
      {layout.places > 1 && <Whole id="label-start" label={say("labels.start")} most={layout.places} value={start} put={setStart} />}
      <p class="quiet">{say("labels.never")}</p>
      <p role="status">{said}</p>
      <div class="tools">
        <button type="submit">{say("labels.print", { n: count })}</button>
      </div>
    </form>
  );
}

interface WholeProps {
  readonly id: string;
  readonly label: string;
  readonly most: number;
  readonly value: number;
  readonly put: (value: number) => void;
}

function Whole({ id, label, most, value, put }: WholeProps) {
  return (
    <>
      <label for={id}>{label}</label>
      <input id={id} type="number" min={1} max={most} step={1} required value={value} onInput={(event) => put(event.currentTarget.valueAsNumber || 1)} />
    </>
  );
}

interface ScaleProps {
  readonly layout: LabelLayout;
  readonly scale: number;
  readonly setScale: (scale: number) => void;
}

/** The check line of a print, measured: what the next print is made by. */
function ScaleCheck({ layout, scale, setScale }: ScaleProps) {
  const line = layout.check_line_mm ?? 100;
  const [measured, setMeasured] = useState("");
  const [said, setSaid] = useState("");
  const check = async (event: Event) => {
    event.preventDefault();
    const length = Number(measured.replace(",", "."));
    if (!(length > 0)) return setSaid(say("scale.missing"));
    const answer = await getPrintScale({ measured_mm: length, line_mm: line, printed_at: scale });
    if ("trouble" in answer) return setSaid(answer.trouble);
    setScale(answer.here.scale);
    setSaid(served(answer.here.sentence, answer.here.forms));
  };
  return (
    <form class="card word" onSubmit={(event) => void check(event)}>
      <h2>{say("scale.title")}</h2>
      <p>{say("scale.how", { line })}</p>
      <label for="scale-measured">{say("scale.measured")}</label>
      <input id="scale-measured" inputMode="decimal" autocomplete="off" value={measured} onInput={(event) => setMeasured(event.currentTarget.value)} />
      <p role="status">{said}</p>
      <div class="tools">
        <button type="submit">{say("scale.check")}</button>
      </div>
    </form>
  );
}
