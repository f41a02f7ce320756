import { useLayoutEffect, useRef, useState } from "preact/hooks";

import { phone } from "../outbox/sight";
import type { DeskFinding, DeskList } from "../sync/desk";
import { decideFinding } from "../sync/release";
import { say } from "../words/say";
import { lastHand, missing, NOTHING_TYPED, understood, wordOf, type Act, type Typed } from "./word";

interface Props {
  readonly job: string;
  readonly found: DeskFinding;
  readonly act: Act;
  readonly people: DeskList["people"];
  readonly done: (sentence: string) => void;
  readonly cancel: () => void;
}

/** What the lead's word on a finding needs: a reason always; limit, barrier and second name to put it off; a name to send it back. */
export function WordForm({ job, found, act, people, done, cancel }: Props) {
  const [typed, setTyped] = useState<Typed>({ ...NOTHING_TYPED, to: lastHand(found, people, phone.value?.by ?? "") });
  const [trouble, setTrouble] = useState("");
  const [busy, setBusy] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  // before it is painted: what a quick hand types after the key that opened it belongs into it
  useLayoutEffect(() => form.current?.querySelector<HTMLElement>(act === "back" && typed.to ? "textarea" : "input, textarea")?.focus(), [act]);
  const sendByKey = (event: KeyboardEvent) => {
    if (event.key === "Enter" && event.ctrlKey) form.current?.requestSubmit();
  };
  const put = (field: keyof Typed) => (event: Event) => {
    const { value } = event.currentTarget as HTMLInputElement | HTMLTextAreaElement;
    setTyped((old) => ({ ...old, [field]: value }));
  };
  const send = async (event: Event) => {
    event.preventDefault();
    const lacks = missing(act, typed, phone.value?.by ?? "", new Date());
    if (lacks) return setTrouble(lacks);
    setBusy(true);
    const failed = await decideFinding(job, wordOf(act, found, typed));
    setBusy(false);
    if (failed) setTrouble(failed);
    else done(understood(act, found, typed));
  };
  return (
    <form ref={form} class="word card" aria-label={say(`word.${act}`)} onSubmit={(event) => void send(event)} onKeyDown={sendByKey}>
      <h3>{say(`word.${act}`)}</h3>
      <p class="quiet">{say(`word.${act}.more`)}</p>
      {act === "decide" && <Choice typed={typed} put={put} />}
      {act === "back" && <Line name="to" typed={typed} put={put} list="word-people" />}
      {act === "defer" && (
        <>
          <Line name="limit" typed={typed} put={put} type="date" />
          <Line name="barrier" typed={typed} put={put} />
          <Line name="second" typed={typed} put={put} list="word-people" />
        </>
      )}
      <label for="word-reason">{say("word.reason")}</label>
      <textarea id="word-reason" rows={3} maxLength={500} value={typed.reason} onInput={put("reason")} />
      <datalist id="word-people">
        {people.map((person) => (
          <option key={person.name} value={person.name} />
        ))}
      </datalist>
      {trouble && <p role="alert">{trouble}</p>}
      <div class="tools">
        <button type="submit" disabled={busy}>
          {say(busy ? "word.busy" : `word.${act}.go`)} <kbd>{say("word.key")}</kbd>
        </button>
        <button type="button" onClick={cancel}>{say("word.cancel")}</button>
      </div>
    </form>
  );
}

type Put = (field: keyof Typed) => (event: Event) => void;
interface LineProps {
  readonly name: "limit" | "barrier" | "second" | "to";
  readonly typed: Typed;
  readonly put: Put;
  readonly type?: "text" | "date";
  readonly list?: string | undefined;
}

function Line({ name, typed, put, type = "text", list }: LineProps) {
  return (
    <>
      <label for={`word-${name}`}>{say(`word.${name}`)}</label>
      <input id={`word-${name}`} type={type} list={list} maxLength={name === "barrier" ? 500 : 120} autocomplete="off" value={typed[name]} onInput={put(name)} />
    </>
  );
}

function Choice({ typed, put }: { readonly typed: Typed; readonly put: Put }) {
  return (
    <fieldset>
      <legend>{say("word.choice")}</legend>
      {(["accept", "clear"] as const).map((word) => (
        <label key={word} class="choice">
          <input type="radio" name="word" value={word} checked={typed.word === word} onInput={put("word")} />
          {say(`word.${word}`)}
        </label>
      ))}
    </fieldset>
  );
}
