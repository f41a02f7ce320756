import { useState } from "preact/hooks";

import { putRight, reasonsFor, standings, type Standing } from "../draft/correct";
import { handPath } from "../hand/route";
import { phone } from "../outbox/sight";
import { listNewest, type Line } from "../sync/api";
import { kept } from "../sync/hand";
import { useLoaded } from "../sync/loaded";
import { useChanges } from "../sync/live";
import { useActs } from "../sync/use_acts";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { say } from "../words/say";
import { CountKeys } from "./count_keys";
import { OldNews } from "./old_news";
import { UndoBar } from "./undo_bar";
import { Waiting } from "./waiting";

interface Props {
  readonly job: string;
}

const CORRECTIONS = new Set(["entry-voided", "entry-replaced"]);

/** What was recorded, newest first; a number that is wrong is tapped, anything else goes by “Wrong”. */
export function CorrectList({ job }: Props) {
  const [loaded, again] = useLoaded(() => kept(`newest of ${job}`, listNewest(job)));
  const { act, understood, trouble } = useActs(job);
  useChanges(job, again);
  const recount = (entry: string, sentence: string) => (n: number) =>
    void act(putRight(entry, { n }, say("correct.reason.count")), say("correct.said.count", { n, what: sentence }), { undone: again }).then(again);
  return (
    <>
      <p class="quiet">{say("correct.how")}</p>
      <Waiting loaded={loaded} what={say("correct.title")} again={again}>
        {({ here, old }) => {
          const known = standings([...here.lines].reverse().map((line) => line.entry));
          return (
            <>
              <OldNews job={job} old={old} />
              <ol class="plain timeline">
                {here.lines
                  .filter((line) => !CORRECTIONS.has(String(line.entry["kind"])))
                  .map((line) => (
                    <Row key={line.position} job={job} line={line} standing={known.get(String(line.entry["id"]))} recount={recount} />
                  ))}
              </ol>
            </>
          );
        }}
      </Waiting>
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
    </>
  );
}

interface RowProps extends Props {
  readonly line: Line;
  readonly standing: Standing | undefined;
  readonly recount: (entry: string, sentence: string) => (n: number) => void;
}

function Row({ job, line, standing, recount }: RowProps) {
  const [counting, setCounting] = useState(false);
  const { entry } = line;
  const id = String(entry["id"]);
  const sentence = entrySentence(entry);
  const mine = entry["by"] === phone.value?.by;
  const counted = mine && reasonsFor(entry).includes("count") && !standing?.voided;
  return (
    <li class={standing?.voided ? "void" : ""}>
      <span class="what">{sentence}</span>
      <span class="quiet">{say("entry.by", { by: String(entry["by"]), when: moment(String(entry["at"])) })}</span>
      {standing?.voided && <span>{say("correct.voided")}</span>}
      {standing?.replaced && !standing.voided && <span>{say("correct.replaced")}</span>}
      {!standing?.voided && (
        <span class="ways">
          {counted && (
            <button type="button" aria-expanded={counting} onClick={() => setCounting(!counting)}>
              {say("correct.number", { count: String(entry["n"]) })}
            </button>
          )}
          <a class="button" href={handPath({ screen: "hand", view: "correct", job, about: id })}>
            {say("correct.wrong")}
          </a>
        </span>
      )}
      {counting && (
        <CountKeys
          chosen={(n) => {
            setCounting(false);
            recount(id, sentence)(n);
          }}
        />
      )}
    </li>
  );
}
