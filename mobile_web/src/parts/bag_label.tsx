import { useState } from "preact/hooks";

import { isForBags, type Known } from "../draft/known";
import { readLabel, shown } from "../scan/label_code";
import { say } from "../words/say";
import { focused } from "./focused";

interface Props {
  readonly known: Known;
  readonly labels: readonly string[];
  readonly picture: string;
  readonly chosen: (label: string) => void;
  readonly again: () => void;
}

/** No label or several were read in the photo: choose one, or type what stands on it. */
export function BagLabel({ known, labels, picture, chosen, again }: Props) {
  const [text, setText] = useState("");
  const [slip, setSlip] = useState(false);
  const typed = (event: Event) => {
    event.preventDefault();
    const found = readLabel(text);
    setSlip(!found || !isForBags(found, known));
    if (found && isForBags(found, known)) chosen(found.code);
  };
  return (
    <>
      <div class="counted">
        <img src={picture} alt={say("bag.photo.alt.plain")} />
        <p class="label" tabIndex={-1} ref={focused}>{say(labels.length ? "bag.label.several" : "bag.label.none")}</p>
      </div>
      <div class="actions">
        {labels.map((label) => (
          <button type="button" key={label} onClick={() => chosen(label)}>
            {shown(label)}
          </button>
        ))}
        <button type="button" onClick={again}>
          {say("bag.again")}
        </button>
      </div>
      <form class="who" onSubmit={typed}>
        <label for="typed-label">{say("bag.label.type")}</label>
        <input id="typed-label" autocapitalize="characters" autocomplete="off" value={text} onInput={(event) => setText(event.currentTarget.value)} />
        {slip && <p role="alert">{say("bag.label.slip")}</p>}
        <button type="submit">{say("bag.label.take")}</button>
      </form>
    </>
  );
}
