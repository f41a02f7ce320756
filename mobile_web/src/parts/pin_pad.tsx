import { useState } from "preact/hooks";

import { say } from "../words/say";

interface Props {
  readonly label: string;
  readonly value: string;
  readonly changed: (pin: string) => void;
  readonly isNew?: boolean;
}

/** A PIN by big keys for gloves, or a passphrase by the keyboard. */
export function PinPad({ label, value, changed, isNew = false }: Props) {
  const [typing, setTyping] = useState(false);
  return (
    <div class="pin">
      <label>
        {label}
        <input
          type="password"
          value={value}
          inputMode={typing ? "text" : "numeric"}
          autocomplete={isNew ? "new-password" : "current-password"}
          maxLength={200}
          onInput={(event) => changed(event.currentTarget.value)}
        />
      </label>
      {!typing && (
        <div class="pin-keys" role="group" aria-label={say("pin.keys")}>
          {["1", "2", "3", "4", "5", "6", "7", "8", "9"].map((digit) => (
            <button type="button" key={digit} onClick={() => changed(value + digit)}>
              {digit}
            </button>
          ))}
          <button type="button" class="small" onClick={() => setTyping(true)}>
            {say("pin.words")}
          </button>
          <button type="button" onClick={() => changed(`${value}0`)}>
            0
          </button>
          <button type="button" class="small" onClick={() => changed(value.slice(0, -1))}>
            {say("pin.back")}
          </button>
        </div>
      )}
    </div>
  );
}
