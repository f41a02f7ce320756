import { useState } from "preact/hooks";

import { recordAsLead } from "../sync/desk";
import { askRelease, type Release } from "../sync/release";
import { served } from "../words/served";
import { say, type Message } from "../words/say";

interface Props {
  readonly job: string;
  readonly standing: Release;
  readonly changed: () => void;
}

/** What can be apart without anybody having recorded it: the entry that says so, and the field that names it. */
const KINDS: readonly (readonly [kind: string, field: string, word: Message])[] = [
  ["part-removed", "part", "listed.part"],
  ["fasteners-loosened", "set", "listed.loosened"],
  ["connection-parted", "connection", "listed.apart"],
  ["opening-opened", "opening", "listed.opened"],
  ["fluid-drained", "fluid", "listed.drained"],
  ["item-brought-in", "item", "listed.in"],
];

/** The last question before a release: is anything apart that is not on the list? Yes adds it, no goes into the statement. */
export function NotListed({ job, standing, changed }: Props) {
  const [yes, setYes] = useState(false);
  const [meter, setMeter] = useState("");
  const [trouble, setTrouble] = useState("");
  const answer = async () => {
    const failed = await askRelease(job, true, meter);
    setTrouble(failed ?? "");
    if (!failed) changed();
  };
  return (
    <section class="card word">
      <label for="meter">{say("listed.meter")}</label>
      <input id="meter" maxLength={40} autocomplete="off" value={meter} onInput={(event) => setMeter(event.currentTarget.value)} />
      <h2>{served(standing.question)}</h2>
      {standing.state === "asked" && standing.nothing_else_apart && <p>{say("listed.said.no")}</p>}
      <div class="tools">
        <button type="button" aria-pressed={yes} onClick={() => setYes(!yes)}>{say("listed.yes")}</button>
        <button type="button" onClick={() => void answer()}>{say(standing.state === "asked" ? "listed.no.again" : "listed.no")}</button>
      </div>
      {trouble && <p role="alert">{trouble}</p>}
      {yes && <Add job={job} added={() => { setYes(false); changed(); }} />}
    </section>
  );
}

function Add({ job, added }: { readonly job: string; readonly added: () => void }) {
  const [which, setWhich] = useState(0);
  const [name, setName] = useState("");
  const [trouble, setTrouble] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    const [kind, field] = KINDS[which]!;
    if (!name.trim()) return setTrouble(say("listed.name.missing"));
    const more = kind === "fasteners-loosened" || kind === "item-brought-in" ? { n: 1 } : {};
    const failed = await recordAsLead(job, [{ kind, [field]: name.trim(), ...more, note: say("listed.note") }]);
    if (failed) setTrouble(failed);
    else added();
  };
  return (
    <form class="word" onSubmit={(event) => void add(event)}>
      <fieldset>
        <legend>{say("listed.what")}</legend>
        {KINDS.map(([kind, , word], index) => (
          <label key={kind} class="choice">
            <input type="radio" name="listed" checked={which === index} onChange={() => setWhich(index)} /> {say(word)}
          </label>
        ))}
      </fieldset>
      <label for="listed-name">{say("listed.name")}</label>
      <input id="listed-name" maxLength={120} autocomplete="off" value={name} onInput={(event) => setName(event.currentTarget.value)} />
      {trouble && <p role="alert">{trouble}</p>}
      <div class="tools">
        <button type="submit">{say("listed.add")}</button>
      </div>
    </form>
  );
}
