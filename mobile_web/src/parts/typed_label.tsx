import { useState } from "preact/hooks";

import { isForBags, type Known } from "../draft/known";
import { readLabel } from "../scan/label_code";
import { say } from "../words/say";

/** Type what stands on the label of a bag or tray; the check character catches a slip. */
export function TypedLabel({ known, chosen }: { readonly known: Known; readonly chosen: (label: string) => void }) {
  const [text, setText] = useState("");
  const [slip, setSlip] = useState(false);
  const typed = (event: Event) => {
    event.preventDefault();
    const found = readLabel(text);
    setSlip(!found || !isForBags(found, known));
    if (found && isForBags(found, known)) chosen(found.code);
  };
  return (
    <form class="who" onSubmit={typed}>
      <label for="typed-label">{say("bag.label.type")}</label>
      <input id="typed-label" autocapitalize="characters" autocomplete="off" value={text} onInput={(event) => setText(event.currentTarget.value)} />
      {slip && <p role="alert">{say("bag.label.slip")}</p>}
      <button type="submit">{say("bag.label.take")}</button>
    </form>
  );
}
