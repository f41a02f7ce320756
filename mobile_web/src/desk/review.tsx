import { useEffect, useRef, useState } from "preact/hooks";

import { SeverityShape } from "../parts/severity";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getJob, type Job } from "../sync/api";
import { getDeskList, type DeskFinding, type DeskList } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { served } from "../words/served";
import { say, type Message } from "../words/say";
import { FindingView } from "./finding_view";
import { DeskJobHead } from "./job_head";
import { KeyHelp } from "./key_help";
import { useKeys, usePlace } from "./keys";
import { PairView, pairKeys } from "./pair_view";
import { ReviewEnd } from "./review_end";
import { WHOLE } from "./view";
import { actsFor, type Act } from "./word";
import { WordForm } from "./word_form";

const HELP: readonly (readonly [string, Message])[] = [
  ["J", "keys.next"],
  ["K", "keys.previous"],
  ["D", "keys.decide"],
  ["F", "keys.defer"],
  ["B", "keys.back"],
  ["+ −", "keys.zoom"],
  ["0", "keys.whole"],
  ["G", "keys.place"],
  ["O", "keys.slider"],
];
const KEY_OF: Record<Act, string> = { decide: "D", defer: "F", back: "B" };

/** The review of a job: what is on its list, worst first, one at a time with the list beside it. */
export function Review({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.review")}`);
  const [loaded, again] = useLoaded(() => getDeskList(job));
  const [head, askHead] = useLoaded(() => getJob(job));
  const [said, setSaid] = useState("");
  const [turn, setTurn] = useState(0);
  const changed = (sentence: string) => {
    setSaid(sentence);
    setTurn(turn + 1);
    again();
    askHead();
  };
  return (
    <>
      <DeskJobHead job={job} here="review" known={here(head)} />
      <p class="said-back" role="status">{said}</p>
      <Waiting loaded={loaded} what={say("desk.review")} again={again}>
        {(list) => <Walk job={job} list={list} changed={changed} turn={turn} />}
      </Waiting>
    </>
  );
}

function here(loaded: ReturnType<typeof useLoaded<Job>>[0]): Job | undefined {
  return loaded !== "waiting" && "here" in loaded ? loaded.here : undefined;
}

interface WalkProps {
  readonly job: string;
  readonly list: DeskList;
  readonly changed: (sentence: string) => void;
  /** Counts the lead's words: what stands at the end is asked for anew after each. */
  readonly turn: number;
}

function Walk({ job, list, changed, turn }: WalkProps) {
  const { findings } = list;
  const [chosen, setChosen] = useState(findings[0]?.finding.key ?? "");
  const [act, setAct] = useState<Act | null>(null);
  const at = Math.max(0, findings.findIndex((each) => each.finding.key === chosen));
  const found = findings[at];
  const { go, step } = usePlace(at, findings.length, (place) => {
    const next = findings[place];
    if (next) setChosen(next.finding.key);
    setAct(null);
  });
  const done = (sentence: string) => {
    const next = findings[at + 1] ?? findings[at - 1];
    if (next) setChosen(next.finding.key);
    setAct(null);
    changed(sentence);
  };
  if (!found) return <ReviewEnd key={turn} job={job} nothing />;
  return (
    <>
      <div class="walk">
        <FindingList findings={findings} at={at} go={go} />
        <OneFinding
          key={found.finding.key}
          {...{ job, found, act, setAct, done }}
          people={list.people}
          place={say("review.place", { at: at + 1, all: findings.length })}
          step={step}
        />
      </div>
      <KeyHelp keys={HELP} />
      <ReviewEnd key={turn} job={job} />
    </>
  );
}

function FindingList({ findings, at, go }: { readonly findings: readonly DeskFinding[]; readonly at: number; readonly go: (to: number) => void }) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => list.current?.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" }), [at]);
  return (
    <nav class="finding-list" aria-label={say("review.list")}>
      <ol class="plain" ref={list} tabIndex={-1}>
        {findings.map(({ finding, sent_back }, index) => (
          <li key={finding.key}>
            <button type="button" aria-current={index === at ? "true" : undefined} onClick={() => go(index)}>
              <span class={`severity ${finding.severity}`}>
                <SeverityShape severity={finding.severity} />
                <span class="hidden">{say(`severity.${finding.severity}`)}: </span>
              </span>
              <span>
                {served(finding.sentence, finding.forms)}
                {sent_back && <span class="quiet"> {say("review.with", { to: sent_back.to ?? say("review.somebody") })}</span>}
              </span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}

interface OneProps {
  readonly job: string;
  readonly found: DeskFinding;
  readonly people: DeskList["people"];
  readonly place: string;
  readonly act: Act | null;
  readonly setAct: (act: Act | null) => void;
  readonly done: (sentence: string) => void;
  readonly step: (by: number) => void;
}

function OneFinding({ job, found, people, place, act, setAct, done, step }: OneProps) {
  const [view, setView] = useState(WHOLE);
  const [slider, setSlider] = useState(false);
  const allowed = actsFor(found);
  const open = (wanted: Act) => () => allowed.includes(wanted) && setAct(wanted);
  const next = { j: () => step(1), k: () => step(-1), n: () => step(1), p: () => step(-1) };
  useKeys({
    ...next,
    d: open("decide"),
    f: open("defer"),
    b: open("back"),
    Escape: () => setAct(null),
    ...(found.pair ? pairKeys(view, setView, () => setSlider(!slider)) : {}),
  });
  const acts = act ? (
    <WordForm {...{ job, found, act, people, done }} cancel={() => setAct(null)} />
  ) : (
    <div class="tools" role="group" aria-label={say("review.acts")}>
      {allowed.map((each) => (
        <button key={each} type="button" onClick={open(each)}>
          {say(`word.${each}`)} <kbd>{KEY_OF[each]}</kbd>
        </button>
      ))}
    </div>
  );
  const pair = found.pair ? <PairView pair={found.pair} {...{ view, setView, slider, setSlider }} /> : <p class="no-picture wide">{say("pair.none")}</p>;
  return <FindingView {...{ job, found, place, pair, acts }} />;
}
