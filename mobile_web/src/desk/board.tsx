import { useEffect, useMemo, useRef, useState } from "preact/hooks";

import { Cautions } from "../parts/cautions";
import { SeverityShape } from "../parts/severity";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { getBoard, type BoardJob } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { headline } from "../words/headline";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { arrived } from "./arrived";
import { ageWords } from "./age";
import { filtered, worstFirst } from "./filter";
import { ShopState } from "./shop_state";
import { Windowed } from "./windowed";

const ROW_PX = 150;
const NARROW_ROW_PX = 376;
const AGAIN_MS = 2000;

/** All jobs of the shop at one look: state, what is open, age, who is on it, what has lain bare longest. */
export function Board(_: { readonly about: string }) {
  useTitle(say("desk.board"));
  const [loaded, again] = useLoaded(getBoard);
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("jobs.title")}</h1>
      <ShopState />
      <Waiting loaded={loaded} what={say("jobs.title")} again={again}>
        {(board) => (
          <>
            {board.judging > 0 && <StillJudging owed={board.judging} again={again} />}
            {board.jobs.length ? <Jobs jobs={board.jobs} now={new Date(board.at)} /> : board.judging === 0 && <None />}
          </>
        )}
      </Waiting>
    </>
  );
}

/** A server that starts judges all jobs once: until then the board says so, and asks again by itself. */
function StillJudging({ owed, again }: { readonly owed: number; readonly again: () => void }) {
  useEffect(() => {
    const turn = setTimeout(again, AGAIN_MS);
    return () => clearTimeout(turn);
  });
  return <p class="cautions" role="status">{say("board.judging", { n: owed })}</p>;
}

function None() {
  return (
    <>
      <p class="headline">{say("jobs.none")}</p>
      <p>{say("jobs.none.more")}</p>
    </>
  );
}

function Jobs({ jobs, now }: { readonly jobs: readonly BoardJob[]; readonly now: Date }) {
  const [words, setWords] = useState("");
  const [focused, setFocused] = useState<number | undefined>();
  const box = useRef<HTMLDivElement>(null);
  const shown = useMemo(() => filtered(worstFirst(jobs), words), [jobs, words]);
  const height = matchMedia("(min-width: 64rem)").matches ? ROW_PX : NARROW_ROW_PX;
  const walk = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const to = Math.min(shown.length - 1, Math.max(0, (focused ?? -1) + step));
    setFocused(to);
    requestAnimationFrame(() => box.current?.querySelector<HTMLElement>(`[data-row="${to}"]`)?.focus());
  };
  return (
    <div ref={box} onKeyDown={walk}>
      <div class="filter">
        <label for="board-filter">{say("board.filter")}</label>
        <input id="board-filter" type="text" autocomplete="off" value={words} onInput={(event) => setWords(event.currentTarget.value)} />
        <p role="status">{say("board.shown", { shown: shown.length, all: jobs.length })}</p>
      </div>
      <Windowed
        count={shown.length}
        height={height}
        label={say("jobs.title")}
        keep={focused}
        row={(index) => <Row job={shown[index]!} now={now} index={index} focus={setFocused} />}
      />
      <Cautions messages={["caution.list"]} />
    </div>
  );
}

interface RowProps {
  readonly job: BoardJob;
  readonly now: Date;
  readonly index: number;
  readonly focus: (index: number) => void;
}

function Row({ job, now, index, focus }: RowProps) {
  const { uncovered } = job;
  return (
    <a
      class="board-row"
      data-row={index}
      href={pathOf({ screen: "review", view: "review", job: job.job, about: "" })}
      onFocus={() => focus(index)}
    >
      <span class="which">
        <strong class="name">{job.machine || job.job}</strong>
        <span class="two">
          {job.title} <span class="quiet">({job.job})</span>
        </span>
      </span>
      <span>
        {job.older && <em>{say("board.older")}</em>}
        <strong>{say("board.state", { state: ownWord("state", job.state) })}</strong>
        <span class="quiet">
          {say("job.level", { level: job.level })} · {job.opened ? say("board.age", { age: ageWords(job.opened, now) }) : say("board.never.opened")}
        </span>
        <span class="quiet two">{job.last && say("job.last", { when: moment(job.last) })}</span>
      </span>
      <Open job={job} />
      <span>
        <span class="two">{job.people.length ? say("board.on", { who: job.people.join(", ") }) : say("board.nobody")}</span>
        <span class="two">
          {uncovered
            ? say("board.bare", { opening: uncovered.opening, letter: uncovered.opening_class, age: ageWords(uncovered.since, now) })
            : say("board.covered")}
        </span>
      </span>
    </a>
  );
}

/** What is open, by severity: word, shape and number. */
function Open({ job }: { readonly job: BoardJob }) {
  return (
    <span class="open">
      <span class="marks" aria-hidden="true">
        {(["stop", "decide", "note"] as const).map(
          (severity) =>
            job.counts[severity] > 0 && (
              <span key={severity} class={`severity ${severity}`}>
                <SeverityShape severity={severity} /> {job.counts[severity]}
              </span>
            ),
        )}
      </span>
      <span class="headline-row">{headline(job.counts, 0)}</span>
      {job.not_checked > 0 && <span class="quiet two">{say("headline.unchecked", { n: job.not_checked })}</span>}
    </span>
  );
}
