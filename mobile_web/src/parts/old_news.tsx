import type { Kept } from "../sync/hand";
import { useUnsent } from "../sync/use_acts";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly old: Kept<unknown>["old"];
}

/** Say plainly how old an answer is, and what this phone recorded that it does not count. */
export function OldNews({ job, old }: Props) {
  const unsent = useUnsent(job);
  if (!old && unsent.length === 0) return null;
  return (
    <div class="old" role="status">
      {old && (
        <p>
          <strong>{say("old.since", { when: moment(old.since) })}</strong> {old.trouble}
        </p>
      )}
      {unsent.length > 0 && (
        <>
          <p>{say("old.unsent", { n: unsent.length })}</p>
          <ul>
            {unsent.map((entry) => (
              <li key={entry.id}>{entrySentence(entry)}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
