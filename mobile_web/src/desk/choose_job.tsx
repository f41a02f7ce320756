import type { Job } from "../sync/api";
import { say } from "../words/say";

interface Props {
  readonly id: string;
  readonly jobs: readonly Job[];
  readonly chosen: string;
  readonly choose: (job: string) => void;
}

/** Choose one of the shop's jobs, the one last written to first. */
export function ChooseJob({ id, jobs, chosen, choose }: Props) {
  return (
    <p class="field">
      <label for={id}>{say("choose.job")}</label>
      <select id={id} value={chosen} onChange={(event) => choose(event.currentTarget.value)}>
        {jobs.map(({ job, machine }) => (
          <option key={job} value={job}>{`${machine || job} (${job})`}</option>
        ))}
      </select>
    </p>
  );
}
