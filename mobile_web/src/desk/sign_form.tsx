import { useEffect, useState } from "preact/hooks";

import { getRelease, signRelease, type Release } from "../sync/release";
import { served } from "../words/served";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly standing: Release;
  readonly changed: () => void;
}

/** The statement to be read aloud, and its signing with a PIN; a second person's where the signer had hands on the work. */
export function SignForm({ job, standing, changed }: Props) {
  const [shown, setShown] = useState(standing);
  const [second, setSecond] = useState("");
  const [pins, setPins] = useState({ own: "", second: "" });
  const [trouble, setTrouble] = useState("");
  const left = useSecondsLeft(standing);
  useEffect(() => setShown(standing), [standing]);
  const ask = async (name: string) => {
    const answer = await getRelease(job, name.trim());
    if ("here" in answer) setShown(answer.here);
  };
  const sign = async (event: Event) => {
    event.preventDefault();
    if (!pins.own) return setTrouble(say("signing.pin.missing"));
    const failed = await signRelease(job, { pin: pins.own, second: second.trim() || null, second_pin: pins.second });
    setPins({ own: "", second: "" });
    setTrouble(failed ?? "");
    if (!failed) changed();
  };
  return (
    <form class="card word" aria-label={say("signing.title")} onSubmit={(event) => void sign(event)}>
      <h2>{say("signing.title")}</h2>
      <p>{say("signing.read")}</p>
      <blockquote>{shown.statement}</blockquote>
      {shown.against.map((sentence) => (
        <p key={sentence} class="never">{served(sentence, shown.forms)}</p>
      ))}
      {(standing.may_need_second || second) && (
        <>
          <label for="sign-second">{say("signing.second")}</label>
          <input id="sign-second" autocomplete="off" maxLength={120} value={second} onInput={(event) => setSecond(event.currentTarget.value)} onChange={(event) => void ask(event.currentTarget.value)} />
          <Pin id="sign-second-pin" label={say("signing.second.pin")} value={pins.second} put={(value) => setPins({ ...pins, second: value })} />
        </>
      )}
      <Pin id="sign-pin" label={say("signing.pin", { who: standing.signer })} value={pins.own} put={(value) => setPins({ ...pins, own: value })} />
      {left > 0 && <p role="timer">{say("signing.wait", { n: left })}</p>}
      {trouble && <p role="alert">{trouble}</p>}
      <div class="tools">
        <button type="submit">{say("signing.go")}</button>
      </div>
    </form>
  );
}

interface PinProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly put: (value: string) => void;
}

function Pin({ id, label, value, put }: PinProps) {
  return (
    <>
      <label for={id}>{label}</label>
      <input id={id} type="password" inputMode="numeric" autocomplete="off" maxLength={200} value={value} onInput={(event) => put(event.currentTarget.value)} />
    </>
  );
}

/** Count down the least time between asking and signing. */
function useSecondsLeft({ asked_at: asked, least_look_s: least }: Release): number {
  const until = asked ? new Date(asked).getTime() + least * 1000 : 0;
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return Math.max(0, Math.ceil((until - now) / 1000));
}
