import type { Message } from "../words/say";
import { say } from "../words/say";

/** Cautions in words, where the work can hurt or the record can mislead. */
export function Cautions({ messages }: { readonly messages: readonly Message[] }) {
  return (
    <aside class="cautions" aria-label={say("caution.title")}>
      <ul>
        {messages.map((message) => (
          <li key={message}>{say(message)}</li>
        ))}
      </ul>
    </aside>
  );
}
