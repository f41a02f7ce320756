import { say, type Message } from "../words/say";
import { keysOn, turnKeys } from "./keys";

/** The line that says which keys do what, and the way to turn single keys off. */
export function KeyHelp({ keys }: { readonly keys: readonly (readonly [string, Message])[] }) {
  return (
    <div class="key-help">
      <p>
        {keysOn.value
          ? keys.map(([key, what]) => (
              <span key={key} class="key">
                <kbd>{key}</kbd> {say(what)}
              </span>
            ))
          : say("keys.off")}
      </p>
      <button type="button" aria-pressed={keysOn.value} onClick={() => turnKeys(!keysOn.value)}>
        {say("keys.single")}
      </button>
    </div>
  );
}
