import { useState } from "preact/hooks";

import { Waiting } from "../parts/waiting";
import { discardHeld, letHeldIn, listHeld, type HeldEntry } from "../sync/people";
import type { Answer } from "../sync/api";
import { moment } from "../words/moment";
import { say } from "../words/say";
import { useChanging, WhoPage } from "./page";

type Act = (doing: Promise<Answer<HeldEntry[]>>) => Promise<boolean>;
const ENVELOPE = new Set(["id", "job", "device", "seq", "at", "by", "kind", "role", "mode", "photos"]);

/** Entries that are not in the record until a lead has looked at them. */
export function Held() {
  const { loaded, again, act, trouble } = useChanging(listHeld);
  return (
    <WhoPage title={say("held.title")} up="/who">
      <p>{say("held.why")}</p>
      {trouble && <p role="alert">{trouble}</p>}
      <Waiting loaded={loaded} what={say("held.title")} again={again}>
        {(held) =>
          held.length ? (
            <ul class="plain">
              {held.map((each) => (
                <li key={each.id} class="card">
                  <OneEntry held={each} act={act} />
                </li>
              ))}
            </ul>
          ) : (
            <p class="headline">{say("held.none")}</p>
          )
        }
      </Waiting>
    </WhoPage>
  );
}

function OneEntry({ held, act }: { readonly held: HeldEntry; readonly act: Act }) {
  const [reason, setReason] = useState<string | null>(null);
  const { by, device, entry, id, job, received, why } = held;
  const said = Object.entries(entry).filter(([field, value]) => !ENVELOPE.has(field) && value !== null);
  return (
    <>
      <p class="name">{String(entry["kind"]).replaceAll("-", " ")}</p>
      <p>{said.map(([field, value]) => `${field.replaceAll("_", " ")}: ${typeof value === "object" ? JSON.stringify(value) : String(value)}`).join(" · ")}</p>
      <p class="quiet">
        {job} · {moment(String(entry["at"]))}
      </p>
      <p class="quiet">{say("held.by", { by, device, when: moment(received), why })}</p>
      <div class="actions">
        <button type="button" onClick={() => void act(letHeldIn(id))}>
          {say("held.in")}
        </button>
        {reason === null ? (
          <button type="button" onClick={() => setReason("")}>
            {say("held.discard")}
          </button>
        ) : (
          <>
            <label>
              {say("held.reason")}
              <input maxLength={500} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
            </label>
            <button type="button" disabled={!reason.trim()} onClick={() => void act(discardHeld(id, reason))}>
              {say("held.discard")}
            </button>
          </>
        )}
      </div>
    </>
  );
}
