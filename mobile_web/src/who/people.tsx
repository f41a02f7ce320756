import { useState } from "preact/hooks";

import { PinPad } from "../parts/pin_pad";
import { Waiting } from "../parts/waiting";
import { session } from "../sync/session";
import { addPerson, clearTries, givePin, letPersonGo, listPeople, setRole, type People as Shop, type PersonHere, type Role } from "../sync/people";
import type { Answer } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { isShopOfOne } from "../sync/shop";
import { moment } from "../words/moment";
import { say } from "../words/say";
import { useChanging, WhoPage } from "./page";

type Act = (doing: Promise<Answer<Shop>>) => Promise<boolean>;
const ROLES: readonly Role[] = ["tech", "lead", "reader"];

/** The people of the shop, for the lead: add one, another role, a new PIN, let one go. */
export function People() {
  const { loaded, again, act, trouble } = useChanging(listPeople);
  return (
    <WhoPage title={say("people.title")} up="/who">
      {trouble && <p role="alert">{trouble}</p>}
      <Waiting loaded={loaded} what={say("people.title")} again={again}>
        {({ people, deeds }) => (
          <>
            <ul class="plain">
              {people.map((person) => (
                <li key={person.name} class="card">
                  <OnePerson person={person} act={act} />
                </li>
              ))}
            </ul>
            <AddPerson act={act} />
            <OwnWork />
            <details>
              <summary>{say("people.deeds")}</summary>
              <ul>
                {deeds.map(({ at, by, act: what, about }, index) => (
                  <li key={index}>{say("people.deed", { about, act: what, by, when: moment(at) })}</li>
                ))}
              </ul>
            </details>
          </>
        )}
      </Waiting>
    </WhoPage>
  );
}

/** Who may sign for work of their own; the lead reads here how it is set, and why it is set elsewhere. */
function OwnWork() {
  const [loaded, again] = useLoaded(isShopOfOne);
  return (
    <section class="card">
      <h2>{say("alone.title")}</h2>
      <Waiting loaded={loaded} what={say("alone.title")} again={again}>
        {(alone) => <p>{say(alone ? "alone.on" : "alone.off")}</p>}
      </Waiting>
      <p class="quiet">{say("alone.where")}</p>
    </section>
  );
}

function OnePerson({ person, act }: { readonly person: PersonHere; readonly act: Act }) {
  const [pin, setPin] = useState<string | null>(null);
  const { name, role, gone, failed } = person;
  const isMe = session.value?.current === name;
  const take = async () => {
    if (pin && (await act(givePin(name, pin)))) setPin(null);
  };
  return (
    <>
      <p class="name">{name}</p>
      <p>{gone ? say("people.gone", { when: moment(gone) }) : say(`role.${role}`)}</p>
      {failed > 0 && <p>{say("people.failed", { n: failed })}</p>}
      {!gone && (
        <details>
          <summary>{say("people.change", { name })}</summary>
          <div class="actions">
            {!isMe &&
              ROLES.filter((other) => other !== role).map((other) => (
                <button type="button" key={other} onClick={() => void act(setRole(name, other))}>
                  {say("people.make", { role: say(`role.${other}`) })}
                </button>
              ))}
            {failed > 0 && (
              <button type="button" onClick={() => void act(clearTries(name))}>
                {say("people.clear")}
              </button>
            )}
            {pin === null ? (
              <button type="button" onClick={() => setPin("")}>
                {say("people.new.pin")}
              </button>
            ) : (
              <>
                <PinPad label={say("people.new.pin")} value={pin} changed={setPin} isNew />
                <button type="button" disabled={!pin} onClick={() => void take()}>
                  {say("me.pin.go")}
                </button>
              </>
            )}
            {!isMe && (
              <button type="button" onClick={() => void act(letPersonGo(name))}>
                {say("people.leave")}
              </button>
            )}
          </div>
        </details>
      )}
    </>
  );
}

function AddPerson({ act }: { readonly act: Act }) {
  const [name, setName] = useState("");
  const [role, setNewRole] = useState<Role>("tech");
  const [pin, setPin] = useState("");
  const [added, setAdded] = useState<string | null>(null);
  const go = async (event: Event) => {
    event.preventDefault();
    if (!(await act(addPerson(name.trim(), role, pin)))) return;
    setAdded(name.trim());
    setName("");
    setPin("");
  };
  return (
    <form class="sign-in card" onSubmit={(event) => void go(event)}>
      <h2>{say("people.add")}</h2>
      <label>
        {say("people.name")}
        <input autocomplete="off" maxLength={60} value={name} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <label>
        {say("people.role")}
        <select value={role} onChange={(event) => setNewRole(event.currentTarget.value as Role)}>
          {ROLES.map((each) => (
            <option key={each} value={each}>
              {say(`role.${each}`)}
            </option>
          ))}
        </select>
      </label>
      <PinPad label={say("people.first.pin")} value={pin} changed={setPin} isNew />
      <p class="quiet">{say("pin.rule")}</p>
      <button type="submit" disabled={!name.trim() || !pin}>
        {say("people.add")}
      </button>
      {added && <p role="status">{say("people.added", { name: added })}</p>}
    </form>
  );
}
