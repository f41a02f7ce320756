import { useState } from "preact/hooks";

import type { Voice } from "../camera/voice";
import { answerFrom, givenOver, type Answers } from "../draft/handover";
import { handPath } from "../hand/route";
import { sha256 } from "../outbox/sha256";
import { focused } from "../parts/focused";
import { HandTop } from "../parts/hand_top";
import { OldNews } from "../parts/old_news";
import { UndoBar } from "../parts/undo_bar";
import { VoiceNote } from "../parts/voice_note";
import { Waiting } from "../parts/waiting";
import { useUnfinished } from "../sw/quiet";
import { getTakeOver, type TakeOver } from "../sync/hand";
import { useLoaded } from "../sync/loaded";
import { useActs } from "../sync/use_acts";
import { say, type Message } from "../words/say";
import { served } from "../words/served";

interface Props {
  readonly job: string;
}
type Question = keyof Answers;

const QUESTIONS: readonly Question[] = ["half_done", "dangerous", "not_listed"];
const SECTIONS: Readonly<Record<Question, readonly string[]>> = {
  half_done: ["Half done"],
  dangerous: ["Danger now", "Open mouths", "Inside"],
  not_listed: [],
};
const ASKS: Readonly<Record<Question, Message>> = {
  half_done: "give.half.done",
  dangerous: "give.dangerous",
  not_listed: "give.not.listed",
};

/** Give over: three questions, each with what the record lists already; then signed off. */
export function GiveOver({ job }: Props) {
  const [loaded, again] = useLoaded(() => getTakeOver(job));
  return (
    <HandTop job={job} title={say("give.title")}>
      <Waiting loaded={loaded} what={say("give.title")} again={again}>
        {({ here, old }) => (
          <>
            <OldNews job={job} old={old} />
            <Giving job={job} now={here} />
          </>
        )}
      </Waiting>
    </HandTop>
  );
}

function Giving({ job, now }: Props & { readonly now: TakeOver }) {
  const { act, understood, trouble } = useActs(job);
  const [answers, setAnswers] = useState<Partial<Answers>>({});
  const [voice, setVoice] = useState<Voice | null>(null);
  const [given, setGiven] = useState(false);
  useUnfinished(!given && (Object.keys(answers).length > 0 || voice !== null));
  const asked = QUESTIONS.find((question) => !(question in answers));
  const give = async () => {
    const all = { half_done: null, dangerous: null, not_listed: null, ...answers };
    const drafts = givenOver(all, null, voice && (await sha256(voice.bytes)));
    const shot = voice ? { shot: { ...voice, width: 0, height: 0 } } : {};
    if (await act(drafts, say("give.said"), { ...shot, undone: () => setGiven(false) })) setGiven(true);
  };
  return (
    <>
      {asked && (
        <Asked key={asked} question={asked} now={now} answered={(answer) => setAnswers({ ...answers, [asked]: answer })} />
      )}
      {!asked && !given && (
        <>
          <dl class="facts">
            {QUESTIONS.map((question) => (
              <div key={question}>
                <dt>{say(ASKS[question])}</dt>
                <dd>{answers[question] ?? say("give.nothing.said")}</dd>
              </div>
            ))}
          </dl>
          <VoiceNote voice={voice} spoken={setVoice} />
          <button type="button" class="shutter" onClick={() => void give()}>
            {say("give.go")}
          </button>
          <button type="button" onClick={() => setAnswers({})}>
            {say("give.anew")}
          </button>
        </>
      )}
      {given && (
        <a class="button" href={handPath({ screen: "hand", view: "take-over", job, about: "" })}>
          {say("give.sheet")}
        </a>
      )}
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
    </>
  );
}

interface AskedProps {
  readonly question: Question;
  readonly now: TakeOver;
  readonly answered: (answer: string | null) => void;
}

/** One question: what the record lists for it, a line of one's own if wanted, one tap to go on. */
function Asked({ question, now, answered }: AskedProps) {
  const [own, setOwn] = useState("");
  const lines = now.sections.filter(({ title }) => SECTIONS[question].includes(title)).flatMap((section) => section.lines);
  const listed = lines.map((line) => served(line.text, line.forms));
  return (
    <section>
      <h2 tabIndex={-1} ref={focused}>
        {say(ASKS[question])}
      </h2>
      <p class="quiet">{say("give.of", { place: QUESTIONS.indexOf(question) + 1, all: QUESTIONS.length })}</p>
      {listed.length > 0 && <p>{say("give.listed")}</p>}
      <ul class="lines">
        {listed.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <label class="own">
        {say("give.own")}
        <textarea rows={2} maxLength={500} value={own} onInput={(event) => setOwn(event.currentTarget.value)} />
      </label>
      <button type="button" class="shutter" onClick={() => answered(answerFrom(listed, own, say("give.cut")) ?? say("give.nothing"))}>
        {say(own.trim() ? "give.on.own" : listed.length ? "give.on.listed" : "give.on.nothing")}
      </button>
    </section>
  );
}
