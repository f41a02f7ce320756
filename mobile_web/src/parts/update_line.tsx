import { update } from "../sw/here";
import { say } from "../words/say";

/** Offer the new page when one is ready; nobody is forced out of what they are doing. */
export function UpdateLine() {
  const take = update.value;
  return (
    <div class="update" role="status">
      {take && (
        <button type="button" onClick={take}>
          {say("update.ready")}
        </button>
      )}
    </div>
  );
}
