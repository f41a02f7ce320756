import { CorrectList } from "../parts/correct_list";
import { CorrectOne } from "../parts/correct_one";
import { HandTop } from "../parts/hand_top";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly about: string;
}

/** Something is wrong in the record: choose the entry, say why; it stays readable, and nothing else changes with it. */
export function Correct({ job, about }: Props) {
  return (
    <HandTop job={job} title={say(about ? "correct.entry" : "correct.title")}>
      {about ? <CorrectOne job={job} entry={about} /> : <CorrectList job={job} />}
    </HandTop>
  );
}
