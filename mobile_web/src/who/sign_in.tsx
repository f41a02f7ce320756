import { useState } from "preact/hooks";

import { PinPad } from "../parts/pin_pad";
import { useTitle } from "../parts/title";
import { lookAgain, makeFirstLead, session, signIn, unasked, whyShut } from "../sync/session";
import { say } from "../words/say";
import { knownNames, remember } from "./names";

/** Nobody is signed in: say who one is, with a PIN; at the very first start with the code that the server printed. */
export function SignIn() {
  useTitle(say("sign.title"));
  return session.value?.needs_first_lead ? <FirstLead /> : <NameAndPin done={() => undefined} />;
}

/** Ask for a name, remembered on this device, and its PIN. */
export function NameAndPin({ done }: { readonly done: () => void }) {
  const names = knownNames();
  const [name, setName] = useState(names[0] ?? "");
  const [other, setOther] = useState(names.length === 0);
  const [pin, setPin] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const go = async (event: Event) => {
    event.preventDefault();
    if (!name.trim() || !pin || busy) return;
    setBusy(true);
    const why = await signIn(name.trim(), pin);
    setBusy(false);
    setTrouble(why);
    setPin("");
    if (why !== null) return;
    remember(session.value?.current ?? name);
    done();
  };
  return (
    <form class="sign-in" onSubmit={(event) => void go(event)}>
      <h1 tabIndex={-1}>{say("sign.title")}</h1>
      <Why />
      {!other && (
        <div class="names" role="group" aria-label={say("sign.who")}>
          {names.map((known) => (
            <button type="button" key={known} aria-pressed={known === name} onClick={() => setName(known)}>
              {known}
            </button>
          ))}
          <button type="button" onClick={() => (setOther(true), setName(""))}>
            {say("sign.else")}
          </button>
        </div>
      )}
      {other && (
        <label>
          {say("sign.name")}
          <input autocomplete="username" maxLength={60} value={name} onInput={(event) => setName(event.currentTarget.value)} />
        </label>
      )}
      <PinPad label={say("sign.pin")} value={pin} changed={setPin} />
      {trouble && <p role="alert">{trouble}</p>}
      <button type="submit" class="main" disabled={!name.trim() || !pin || busy}>
        {busy ? say("sign.busy") : say("sign.go")}
      </button>
    </form>
  );
}

function FirstLead() {
  const [code, setCode] = useState("");
  const [name, setName] = useState("");
  const [pin, setPin] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const go = async (event: Event) => {
    event.preventDefault();
    const why = await makeFirstLead(code, name, pin);
    setTrouble(why);
    if (why === null) remember(name.trim());
  };
  return (
    <form class="sign-in" onSubmit={(event) => void go(event)}>
      <h1 tabIndex={-1}>{say("first.lead.title")}</h1>
      <p>{say("first.lead.why")}</p>
      <label>
        {say("first.lead.code")}
        <input autocomplete="off" autocapitalize="characters" maxLength={40} value={code} onInput={(event) => setCode(event.currentTarget.value)} />
      </label>
      <label>
        {say("sign.name")}
        <input autocomplete="username" maxLength={60} value={name} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <PinPad label={say("pin.new")} value={pin} changed={setPin} isNew />
      <p class="quiet">{say("pin.rule")}</p>
      {trouble && <p role="alert">{trouble}</p>}
      <button type="submit" class="main" disabled={!code || !name.trim() || !pin}>
        {say("first.lead.go")}
      </button>
    </form>
  );
}

function Why() {
  const why = whyShut();
  if (!why) return null;
  return (
    <div class="trouble" role="alert">
      <p>{why}</p>
      {unasked.value !== null && (
        <button type="button" onClick={() => void lookAgain()}>
          {say("again")}
        </button>
      )}
    </div>
  );
}
