import { useState } from "preact/hooks";

import { outbox } from "../outbox/here";
import { say } from "../words/say";

/** Ask once who holds this phone; every entry names a person. */
export function Who() {
  const [name, setName] = useState("");
  const go = (event: Event) => {
    event.preventDefault();
    const by = name.trim();
    if (by) void outbox.then((opened) => opened.hold(by));
  };
  return (
    <form class="who" onSubmit={go}>
      <label for="who">{say("who.ask")}</label>
      <input id="who" autocomplete="name" maxLength={120} value={name} onInput={(event) => setName(event.currentTarget.value)} />
      <button type="submit">{say("who.go")}</button>
    </form>
  );
}
