import { useEffect, useState } from "preact/hooks";

import { takenOver } from "../draft/handover";
import { phone } from "../outbox/sight";
import { HandTop } from "../parts/hand_top";
import { OldNews } from "../parts/old_news";
import { SaidLines } from "../parts/said_lines";
import { TrayWalk } from "../parts/tray_walk";
import { UndoBar } from "../parts/undo_bar";
import { Waiting } from "../parts/waiting";
import { handPath } from "../hand/route";
import { originalAddress } from "../sync/api";
import { useUnfinished } from "../sw/quiet";
import { getTakeOver, type TakeOver as Sheet } from "../sync/hand";
import { useLoaded } from "../sync/loaded";
import { useActs } from "../sync/use_acts";
import { moment } from "../words/moment";
import { say } from "../words/say";

interface Props {
  readonly job: string;
}
type Acts = ReturnType<typeof useActs>;
type Part = Props & { readonly sheet: Sheet };

const FIRST = ["Half done", "Danger now", "Open mouths", "Inside"];
const SAID = "Said, not scanned";

/** Take over: read what is half done and dangerous, walk along the trays, take the tags, accept. */
export function TakeOver({ job }: Props) {
  const [loaded, again] = useLoaded(() => getTakeOver(job));
  return (
    <HandTop job={job} title={say("take.title")}>
      <Waiting loaded={loaded} what={say("take.title")} again={again}>
        {({ here, old }) => (
          <>
            <OldNews job={job} old={old} />
            <Taking job={job} sheet={here} />
          </>
        )}
      </Waiting>
    </HandTop>
  );
}

function Taking({ job, sheet }: Part) {
  const acts = useActs(job);
  const [stage, setStage] = useState<"read" | "walk" | "accept" | "done">("read");
  const [seen, setSeen] = useState<ReadonlySet<string>>(new Set());
  const [disputed, setDisputed] = useState<ReadonlySet<string>>(new Set());
  useEffect(() => scrollTo(0, 0), [stage]);
  useUnfinished(stage === "walk" || stage === "accept");
  const missing = sheet.trays.filter(({ container }) => !seen.has(container)).length;
  const accept = async () => {
    const drafts = takenOver(sheet.giver, [...seen], [...disputed]);
    const said = say("take.said", { seen: seen.size, all: sheet.trays.length });
    if (await acts.act(drafts, said, { undone: () => setStage("accept") })) setStage("done");
  };
  return (
    <>
      {stage === "read" && <Read job={job} sheet={sheet} acts={acts} next={() => setStage(sheet.trays.length ? "walk" : "accept")} />}
      {stage === "walk" && (
        <TrayWalk trays={sheet.trays} seen={seen} see={setSeen} disputed={disputed} dispute={setDisputed} next={() => setStage("accept")} />
      )}
      {stage === "accept" && (
        <>
          <Tags sheet={sheet} acts={acts} />
          {disputed.size > 0 && <p>{say("take.disputed", { n: disputed.size, names: [...disputed].join(", ") })}</p>}
          {sheet.giver === phone.value?.by && <p role="alert">{say("take.own", { by: sheet.giver })}</p>}
          <button type="button" class="shutter" onClick={() => void accept()}>
            {missing ? say("take.go.missing", { n: missing }) : say("take.go")}
          </button>
          {sheet.trays.length > 0 && (
            <button type="button" onClick={() => setStage("walk")}>
              {say("take.back.walk")}
            </button>
          )}
        </>
      )}
      {stage === "done" && (
        <a class="button main" href={handPath({ screen: "hand", view: "next", job, about: "" })}>
          {say("next.title")}
        </a>
      )}
      {acts.trouble && <p role="alert">{acts.trouble}</p>}
      <UndoBar understood={acts.understood} />
    </>
  );
}

/** What the giver said and what the record lists as half done and dangerous; half-done things get looked over again. */
function Read({ job, sheet, acts, next }: Part & { readonly acts: Acts; readonly next: () => void }) {
  const [again, setAgain] = useState<ReadonlySet<string>>(new Set());
  const look = async (element: string) => {
    const resumed = { kind: "work-resumed", element, went_back: 3, rechecked: true };
    const notAgain = () => setAgain((old) => new Set([...old].filter((each) => each !== element)));
    setAgain((old) => new Set([...old, element]));
    if (!(await acts.act([resumed], say("take.looked.said", { element }), { undone: notAgain }))) notAgain();
  };
  const rest = sheet.sections.filter(({ title }) => title !== SAID && !FIRST.includes(title));
  return (
    <>
      <Said sheet={sheet} />
      {FIRST.map((title) => (
        <SaidLines key={title} job={job} section={sheet.sections.find((section) => section.title === title)}>
          {(subject) =>
            title === FIRST[0] && (
              <button type="button" disabled={again.has(subject)} onClick={() => void look(subject)}>
                {say(again.has(subject) ? "take.looked" : "take.look")}
              </button>
            )
          }
        </SaidLines>
      ))}
      <details>
        <summary>{say("take.rest", { n: rest.length })}</summary>
        {rest.map((section) => (
          <SaidLines key={section.title} job={job} section={section} />
        ))}
      </details>
      <button type="button" class="shutter" onClick={next}>
        {sheet.trays.length ? say("take.walk", { n: sheet.trays.length }) : say("take.no.trays")}
      </button>
    </>
  );
}

function Said({ sheet }: { readonly sheet: Sheet }) {
  const { offered } = sheet;
  if (!offered) return <p class="headline">{say("take.no.offer")}</p>;
  return (
    <section>
      <p class="headline">{say("take.offered", { by: offered.by, when: moment(offered.at) })}</p>
      {offered.voice_note && (
        <audio controls preload="none" src={originalAddress(offered.voice_note)} aria-label={say("take.voice", { by: offered.by })} />
      )}
      <dl class="facts">
        <div>
          <dt>{say("give.half.done")}</dt>
          <dd>{offered.half_done ?? say("give.nothing.said")}</dd>
        </div>
        <div>
          <dt>{say("give.dangerous")}</dt>
          <dd>{offered.dangerous ?? say("give.nothing.said")}</dd>
        </div>
        <div>
          <dt>{say("give.not.listed")}</dt>
          <dd>{offered.not_listed ?? say("give.nothing.said")}</dd>
        </div>
      </dl>
    </section>
  );
}

/** The tags that hang on the machine: each becomes the taker's by one tap. */
function Tags({ sheet, acts }: { readonly sheet: Sheet; readonly acts: Acts }) {
  const me = phone.value?.by ?? "";
  const [mine, setMine] = useState<ReadonlySet<string>>(new Set());
  const take = async (isolation: string) => {
    const notMine = () => setMine((old) => new Set([...old].filter((each) => each !== isolation)));
    setMine((old) => new Set([...old, isolation]));
    const said = say("take.tag.said", { isolation });
    if (!(await acts.act([{ kind: "isolation-transferred", isolation, to: me }], said, { undone: notMine }))) notMine();
  };
  if (sheet.tags.length === 0) return null;
  return (
    <section>
      <h2>{say("take.tags")}</h2>
      <ul class="plain lines">
        {sheet.tags.map(({ isolation, holder, proven }) => (
          <li key={isolation}>
            <span>
              {say(proven ? "take.tag.proven" : "take.tag.unproven", { isolation, holder: holder ?? say("take.tag.nobody") })}
            </span>
            {holder !== me && (
              <button type="button" disabled={mine.has(isolation)} onClick={() => void take(isolation)}>
                {say(mine.has(isolation) ? "take.tag.mine" : "take.tag.take")}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
