import { phone } from "../outbox/sight";
import { say } from "../words/say";

/** Who holds this device, on every screen; a tap changes that. */
export function PersonLine() {
  const by = phone.value?.by;
  if (!by) return null;
  return (
    <nav class="person" aria-label={say("who.here")}>
      <a href="/who">
        <span class="name-here">{by}</span>
        <span class="quiet"> {say("who.change")}</span>
      </a>
    </nav>
  );
}
