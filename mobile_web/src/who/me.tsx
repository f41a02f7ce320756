import { useState } from "preact/hooks";

import { PinPad } from "../parts/pin_pad";
import { sight } from "../outbox/sight";
import { changePin, holdDevice, session, signOut } from "../sync/session";
import { say } from "../words/say";
import { moment } from "../words/moment";
import { isLead, WhoPage } from "./page";
import { NameAndPin } from "./sign_in";

/** Who is signed in on this device: hand it to another, sign out, change the PIN; for a lead the way to people and devices. */
export function Me() {
  const { current = null, people = [] } = session.value ?? {};
  const [adding, setAdding] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const act = async (doing: Promise<string | null>) => setTrouble(await doing);
  if (adding) return <NameAndPin done={() => setAdding(false)} />;
  const me = people.find(({ name }) => name === current);
  const waits = sight.value.entries + sight.value.photos > 0;
  return (
    <WhoPage title={say("me.title")} up="/">
      {me && (
        <p class="headline">
          {say("me.holds", { name: me.name })} <span class="quiet">({say(`role.${me.role}`)})</span>
        </p>
      )}
      {me && <p class="quiet">{say("me.until", { when: moment(me.until) })}</p>}
      {trouble && <p role="alert">{trouble}</p>}
      {people
        .filter(({ name }) => name !== current)
        .map(({ name }) => (
          <button type="button" key={name} onClick={() => void act(holdDevice(name))}>
            {say("me.switch", { name })}
          </button>
        ))}
      <button type="button" onClick={() => setAdding(true)}>
        {say("me.add")}
      </button>
      {people.length > 1 && <p class="quiet">{say("me.shared")}</p>}
      <a class="button" href="/who/phone">
        {say("phone.another")}
      </a>
      {isLead() && <LeadLinks />}
      <OwnPin />
      {me && waits && <p class="trouble">{say("me.out.waits", { name: me.name })}</p>}
      {me && (
        <button type="button" onClick={() => void act(signOut(me.name))}>
          {say("me.out", { name: me.name })}
        </button>
      )}
      {people.length > 1 && (
        <button type="button" onClick={() => void act(signOut(null))}>
          {say("me.out.all")}
        </button>
      )}
    </WhoPage>
  );
}

function LeadLinks() {
  return (
    <nav aria-label={say("people.title")}>
      <ul class="plain actions">
        {(["people", "devices", "held"] as const).map((view) => (
          <li key={view}>
            <a class="button" href={`/who/${view}`}>
              {say(`${view}.title`)}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function OwnPin() {
  const [open, setOpen] = useState(false);
  const [old, setOld] = useState("");
  const [next, setNext] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  if (!open) {
    return (
      <button type="button" onClick={() => setOpen(true)}>
        {say("me.pin")}
      </button>
    );
  }
  const go = async (event: Event) => {
    event.preventDefault();
    const why = await changePin(old, next);
    setTrouble(why);
    if (why === null) setOpen(false);
  };
  return (
    <form class="sign-in card" onSubmit={(event) => void go(event)}>
      <PinPad label={say("me.pin.old")} value={old} changed={setOld} />
      <PinPad label={say("pin.new")} value={next} changed={setNext} isNew />
      <p class="quiet">{say("pin.rule")}</p>
      {trouble && <p role="alert">{trouble}</p>}
      <button type="submit" disabled={!old || !next}>
        {say("me.pin.go")}
      </button>
    </form>
  );
}
