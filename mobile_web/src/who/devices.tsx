import { useState } from "preact/hooks";

import { Waiting } from "../parts/waiting";
import { endDevice, letDeviceBack, listDevices, listTouched, walkedWhatItTouched, type DeviceHere } from "../sync/people";
import type { Answer } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { browserWords } from "../words/browser";
import { moment } from "../words/moment";
import { say } from "../words/say";
import { useChanging, WhoPage } from "./page";

type Act = (doing: Promise<Answer<DeviceHere[]>>) => Promise<boolean>;

/** The shop's devices, for the lead: what was last heard of each, and how a lost one is cut off. */
export function Devices() {
  const { loaded, again, act, trouble } = useChanging(listDevices);
  return (
    <WhoPage title={say("devices.title")} up="/who">
      {trouble && <p role="alert">{trouble}</p>}
      <Waiting loaded={loaded} what={say("devices.title")} again={again}>
        {(devices) => (
          <ul class="plain">
            {devices.map((device) => (
              <li key={device.device} class="card">
                <OneDevice device={device} act={act} />
              </li>
            ))}
          </ul>
        )}
      </Waiting>
    </WhoPage>
  );
}

function OneDevice({ device, act }: { readonly device: DeviceHere; readonly act: Act }) {
  const { ended, ended_by, held, last_seq, last_received, lost, people } = device;
  const [touched, setTouched] = useState(false);
  return (
    <>
      <p class="name">{device.people.length > 0 ? device.people.join(", ") : device.device}</p>
      <p class="quiet">
        {device.device} · {browserWords(device.browser)}
        {device.this && <> · {say("devices.this")}</>}
      </p>
      <p>{people.length ? say("devices.people", { people: people.join(", ") }) : say("devices.nobody")}</p>
      <p>{say("devices.seen", { when: moment(device.seen) })}</p>
      <p>
        {last_seq !== null && last_received !== null
          ? say("devices.last", { seq: last_seq, when: moment(last_received) })
          : say("devices.none")}
      </p>
      {held > 0 && (
        <p>
          <a href="/who/held">{say("devices.held", { n: held })}</a>
        </p>
      )}
      {ended && (
        <p class="headline">{say(lost ? "devices.is.lost" : "devices.is.ended", { by: ended_by ?? "", when: moment(ended) })}</p>
      )}
      <div class="actions">
        {!touched && last_seq !== null && (
          <button type="button" onClick={() => setTouched(true)}>
            {say("devices.touched")}
          </button>
        )}
        {touched && <WhatItTouched device={device.device} owes={ended !== null || lost} />}
        {lost && (
          <button type="button" onClick={() => void act(letDeviceBack(device.device))}>
            {say("devices.back")}
          </button>
        )}
        {!ended && !device.this && (
          <button type="button" onClick={() => void act(endDevice(device.device, false))}>
            {say("devices.end")}
          </button>
        )}
        {!lost && !device.this && (
          <button type="button" onClick={() => void act(endDevice(device.device, true)).then((done) => setTouched(done))}>
            {say("devices.lost")}
          </button>
        )}
      </div>
    </>
  );
}

function WhatItTouched({ device, owes }: { readonly device: string; readonly owes: boolean }) {
  const [loaded, again] = useLoaded(() => listTouched(device));
  const [walked, setWalked] = useState<readonly string[]>([]);
  const [trouble, setTrouble] = useState<string>();
  const sayWalked = async (job: string) => {
    const answer = await walkedWhatItTouched(device, job);
    if ("trouble" in answer) return setTrouble(answer.trouble);
    setWalked([...walked, job]);
    again();
  };
  return (
    <Waiting loaded={loaded} what={say("devices.touched")} again={again}>
      {(touched) => (
        <>
          <p>{touched.length ? say("devices.walk") : say("devices.none")}</p>
          <ul class="timeline touched plain">
            {touched.map(({ job, element, kind, at, by, on_the_list }) => (
              <li key={`${job} ${element}`}>
                <span class="what">
                  <a href={`/jobs/${encodeURIComponent(job)}`}>{element}</a>
                  {on_the_list && <strong> ▲ {say("devices.on.the.list")}</strong>}
                </span>
                <span class="quiet">
                  {kind.replaceAll("-", " ")}, {by}, {moment(at)} · {job}
                </span>
              </li>
            ))}
          </ul>
          {trouble && <p role="alert">{trouble}</p>}
          {owes &&
            [...new Set(touched.map(({ job }) => job))].map((job) => (
              <p key={job}>
                {walked.includes(job) ? (
                  <strong role="status">{say("devices.walked.done", { job })}</strong>
                ) : (
                  <button type="button" onClick={() => void sayWalked(job)}>
                    {say("devices.walked", { job })}
                  </button>
                )}
              </p>
            ))}
        </>
      )}
    </Waiting>
  );
}
