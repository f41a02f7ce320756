import { handPath, type HandView } from "../hand/route";
import { say } from "../words/say";

const AT_THE_MACHINE: readonly HandView[] = ["next", "start", "orphan", "find", "take-over", "give-over", "correct", "looks"];

/** The ways from a job to what somebody at the machine asks or does; a practice job leads back to practising first. */
export function HandLinks({ job, practice }: { readonly job: string; readonly practice: boolean }) {
  const views: readonly HandView[] = practice ? ["practice", ...AT_THE_MACHINE] : AT_THE_MACHINE;
  return (
    <nav aria-label={say("hand.nav")}>
      <ul class="tabs">
        {views.map((view) => (
          <li key={view} class={view === "practice" ? "wide" : ""}>
            <a href={handPath({ screen: "hand", view, job, about: "" })}>{say(`hand.${view}`)}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
