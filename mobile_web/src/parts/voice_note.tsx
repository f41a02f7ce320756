import { useRef, useState } from "preact/hooks";

import { canSpeak, listen, LONGEST_S, type Voice } from "../camera/voice";
import { say } from "../words/say";

interface Props {
  readonly voice: Voice | null;
  readonly spoken: (voice: Voice | null) => void;
}

/** Speak instead of typing: one tap begins, one ends; where the browser cannot listen, that is said. */
export function VoiceNote({ voice, spoken }: Props) {
  const [listening, setListening] = useState(false);
  const [refused, setRefused] = useState(false);
  const stop = useRef<() => void>(() => undefined);
  if (!canSpeak()) return <p class="quiet">{say("voice.none")}</p>;
  const begin = async () => {
    setListening(true);
    setRefused(false);
    const note = await listen(new Promise((then) => (stop.current = then)));
    setListening(false);
    setRefused(note === null);
    if (note) spoken(note);
  };
  return (
    <div class="voice">
      {listening ? (
        <button type="button" class="stands" onClick={() => stop.current()}>
          {say("voice.stop", { seconds: LONGEST_S })}
        </button>
      ) : (
        <button type="button" onClick={() => void begin()}>
          {say(voice ? "voice.anew" : "voice.begin")}
        </button>
      )}
      {voice && !listening && <p role="status">{say("voice.kept", { n: voice.seconds })}</p>}
      {refused && <p role="alert">{say("voice.refused")}</p>}
    </div>
  );
}
