import { HandLinks } from "../parts/hand_links";
import { pathOf } from "../route";
import { say } from "../words/say";

/** From the hub to the other pages of a job. */
export function HubLinks({ job }: { readonly job: string }) {
  return (
    <>
    <HandLinks job={job} practice={false} />
    <nav aria-label={say("work.pages")}>
      <ul class="tabs">
        {(["findings", "containers", "torque", "photos"] as const).map((screen) => (
          <li key={screen}>
            <a href={pathOf({ screen, job })}>{say(`nav.${screen}`)}</a>
          </li>
        ))}
      </ul>
    </nav>
    </>
  );
}
