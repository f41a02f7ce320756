import { useState } from "preact/hooks";

import { unnamed } from "../acts/options";
import type { Question } from "../acts/act";
import { focused } from "../parts/focused";
import { useSteady } from "../parts/steady";
import type { Pocket } from "../pocket/shape";
import { say } from "../words/say";
import { AmountPad, CountPad } from "./figures";

interface Props {
  readonly pocket: Pocket;
  readonly question: Question;
  readonly answered: (answers: Readonly<Record<string, string | number>>) => void;
}

/** One question of an act, answered with one tap. */
export function Asked({ pocket, question, answered }: Props) {
  const answer = (value: string | number) => answered({ [question.key]: value });
  const options = useSteady("options" in question ? question.options : [], (each) => each.value);
  return (
    <>
      <h2 tabIndex={-1} ref={focused}>{say(question.title)}</h2>
      {question.ask === "count" && <CountPad title={question.title} chosen={answer} />}
      {question.ask === "amount" && <Amount question={question} answered={answered} />}
      {question.ask === "several" && <Several question={question} answered={answered} />}
      {(question.ask === "name" || question.ask === "choice") && options.length === 0 && !(question.ask === "name" && question.unnamed) && (
        <p>{say("ask.none")}</p>
      )}
      {(question.ask === "name" || question.ask === "choice") && (
        <div class="actions">
          {options.map(({ value, label, hint }) => (
            <button type="button" key={value} onClick={() => answer(value)}>
              <span>
                {label}
                {hint && <span class="hint">{hint}</span>}
              </span>
            </button>
          ))}
        </div>
      )}
      {question.ask === "name" && question.unnamed && <Unnamed pocket={pocket} question={question} chosen={answer} />}
    </>
  );
}

/** A figure, and on the same screen what it is of. */
function Amount({ question, answered }: { readonly question: Question & { readonly ask: "amount" }; readonly answered: Props["answered"] }) {
  const { of, title, offered } = question;
  const [picked, setPicked] = useState(of?.options[0]);
  const chosen = (value: number) => answered({ ...(of && picked ? { [of.key]: picked.value } : {}), [question.key]: value });
  return (
    <>
      {of && (
        <div class="actions" role="group" aria-label={say(of.title)}>
          {of.options.map((each) => (
            <button type="button" key={each.value} aria-pressed={each.value === picked?.value} onClick={() => setPicked(each)}>{each.label}</button>
          ))}
        </div>
      )}
      <AmountPad title={title} unit={picked?.hint || question.unit} offered={offered} chosen={chosen} />
    </>
  );
}

type Named = Question & { readonly ask: "name" };

/** For what the job does not know: the photo is the name, until somebody types one. */
function Unnamed({ pocket, question, chosen }: { readonly pocket: Pocket; readonly question: Named; readonly chosen: (name: string) => void }) {
  const [typed, setTyped] = useState("");
  const called = question.unnamed ? unnamed(pocket, question.unnamed) : "";
  const go = (event: Event) => {
    event.preventDefault();
    if (typed.trim()) chosen(typed.trim());
  };
  return (
    <>
      <div class="actions">
        <button type="button" onClick={() => chosen(called)}>{say("unnamed.go", { name: called })}</button>
      </div>
      <form class="who" onSubmit={go}>
        <label for="typed-name">{say("ask.name")}</label>
        <input id="typed-name" autocomplete="off" maxLength={120} value={typed} onInput={(event) => setTyped(event.currentTarget.value)} />
        <button type="submit">{say("ask.name.go")}</button>
      </form>
    </>
  );
}

/** What and how many with one tap: a row for each thing. */
function Several({ question, answered }: { readonly question: Question & { readonly ask: "several" }; readonly answered: Props["answered"] }) {
  const numbers = Array.from({ length: question.most }, (_, index) => index + 1);
  return (
    <div class="several">
      {question.options.map(({ value, label }) => (
        <div key={value} role="group" aria-label={label}>
          <p>{label}</p>
          {numbers.map((n) => (
            <button type="button" key={n} aria-label={`${n} × ${label}`} onClick={() => answered({ [question.key]: value, n })}>{n}</button>
          ))}
        </div>
      ))}
    </div>
  );
}
