import { useEffect } from "preact/hooks";

import type { Answers } from "../acts/act";
import { handPath } from "../hand/route";
import { alikeIn, labelIn } from "../pocket/judgments";
import type { Pocket, PocketContainer } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { pathOf } from "../route";
import { shown } from "../scan/label_code";
import { piecesWords } from "../words/container";
import { say } from "../words/say";
import { SetCard } from "./set_card";
import { takeUp } from "./wrench";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly code: string;
  /** The mouth whose covers are being scanned, if one is. */
  readonly mouth: string | null;
  readonly act: (name: string, answers: Answers) => void;
}

/** What a label in view means: its kind and the state of what bears it decide what is offered (practice 5.0). */
export function InView({ hand, pocket, code, mouth, act }: Props) {
  const label = labelIn(pocket, code);
  const named = shown(code);
  switch (label.is) {
    case "retired":
      return <p class="label">{say("seen.retired", { label: named })}</p>;
    case "strange":
      return <p class="label">{say("seen.strange", { label: named })}</p>;
    case "elsewhere":
      return (
        <>
          <p class="label">{say("seen.elsewhere", { label: named, job: label.job })}</p>
          <a class="button" href={pathOf({ screen: "work", job: label.job, view: "hub", about: "" })}>{say("seen.elsewhere.go", { job: label.job })}</a>
        </>
      );
    case "container":
      return <Bag pocket={pocket} container={label.container} named={named} />;
    case "free":
      if (label.letter === "C" && mouth) return <Cover mouth={mouth} cover={named} act={act} />;
      return "TBS".includes(label.letter) ? <p class="label">{say("seen.free", { label: named })}</p> : <NewLabel hand={hand} pocket={pocket} code={code} letter={label.letter} />;
    case "thing":
      return <Thing hand={hand} pocket={pocket} code={code} thing={label.thing} letter={label.letter} mouth={mouth} act={act} />;
  }
}

function Bag({ pocket, container, named }: { readonly pocket: Pocket; readonly container: PocketContainer; readonly named: string }) {
  const sets = [...new Set(container.contents.map((each) => each.set))].filter((set) => set !== null);
  if (!container.n) return <p class="label">{say("seen.empty", { label: named })}</p>;
  const alike = pocket.sets.filter((set) => sets.includes(set.set)).flatMap((set) => alikeIn(container, set));
  return (
    <>
      <p class="label">{say("seen.full", { label: named, what: container.contents.map(piecesWords).join(", ") })}</p>
      {alike.length > 0 && <p role="alert">{say("count.alike", { others: [...new Set(alike)].join(", "), label: named })}</p>}
      {sets.map((set) => (
        <SetCard key={set} pocket={pocket} set={set} />
      ))}
    </>
  );
}

interface ThingProps extends Props {
  readonly thing: string;
  readonly letter: string;
}

function Thing({ hand, pocket, code, thing, letter, mouth, act }: ThingProps) {
  const named = shown(code);
  const go = (name: string, answers: Answers = { name: thing }) => () => act(name, answers);
  const part = pocket.parts.find((each) => each.part === thing);
  const opening = pocket.openings.find((each) => each.opening === thing);
  if (letter === "W") return <Wrench named={named} thing={thing} hand={hand} />;
  if (letter === "C" && mouth) return <Cover mouth={mouth} cover={thing} act={act} />;
  return (
    <>
      <p class="label">{say("seen.thing", { label: named, thing })}</p>
      <div class="actions two">
        {letter === "O" && opening?.open && <Offer name="act.covers" go={go("covers")} />}
        {letter === "O" && opening?.open && <Offer name="act.looked" go={go("looked")} />}
        {letter === "O" && opening?.open && <Offer name="act.shut" go={go("shut")} />}
        {letter === "O" && !opening?.open && <Offer name="act.mouth" go={go("mouth", { mouth: `known ${thing}` })} />}
        {letter === "P" && (part?.on ?? true) && <Offer name="act.part-off" go={go("part-off")} />}
        {letter === "P" && part && !part.on && <Offer name="act.part-on" go={go("part-on")} />}
        {letter === "M" && <Offer name="seen.machine" go={() => void hand.record([{ kind: "machine-scanned", machine: thing, mode: "scan" }], say("said.machine", { machine: thing }))} />}
        {letter === "H" && <a class="button" href="/who">{say("seen.person.here", { who: thing })}</a>}
        {letter === "H" && <a class="button" href={handPath({ screen: "hand", view: "take-over", job: pocket.job, about: "" })}>{say("hand.take-over")}</a>}
        {letter === "H" && <a class="button" href={handPath({ screen: "hand", view: "looks", job: pocket.job, about: "" })}>{say("seen.person.look")}</a>}
        {letter === "J" && <a class="button" href={handPath({ screen: "hand", view: "next", job: pocket.job, about: "" })}>{say("hand.next")}</a>}
        {letter === "J" && <a class="button" href={pathOf({ screen: "findings", job: pocket.job })}>{say("nav.findings")}</a>}
        {letter === "K" && <Offer name="seen.kit.whole" go={() => void kit(hand, thing, true)} />}
        {letter === "K" && <Offer name="seen.kit.short" go={() => void kit(hand, thing, false)} />}
      </div>
    </>
  );
}

function Offer({ name, go }: { readonly name: Parameters<typeof say>[0]; readonly go: () => void }) {
  return <button type="button" onClick={go}>{say(name)}</button>;
}

function kit(hand: InHand, thing: string, complete: boolean): Promise<boolean> {
  return hand.record([{ kind: "kit-counted", kit: thing, complete, mode: "scan" }], say(complete ? "said.kit" : "said.kit.short", { kit: thing }));
}

/** A wrench read is a wrench in the hand: nothing to tap. */
function Wrench({ named, thing, hand }: { readonly named: string; readonly thing: string; readonly hand: InHand }) {
  useEffect(() => {
    takeUp(thing);
    hand.say(say("said.wrench", { wrench: thing }));
  }, [thing]);
  return <p class="label">{`${named}: ${say("seen.wrench", { wrench: thing })}`}</p>;
}

/** A cover label beside a mouth: on or off, never what the last state makes of it. */
function Cover({ mouth, cover, act }: { readonly mouth: string; readonly cover: string; readonly act: Props["act"] }) {
  const go = (way: string) => () => act("covers", { name: mouth, covers: way, cover });
  return (
    <>
      <p class="label">{say("seen.cover", { cover, mouth })}</p>
      <div class="actions two">
        <button type="button" onClick={go("on 1")}>{say("cover.on")}</button>
        <button type="button" onClick={go("off 1")}>{say("cover.off")}</button>
      </div>
    </>
  );
}

type NewProps = Pick<Props, "hand" | "pocket" | "code"> & { readonly letter: string };

/** A label on nothing yet: one tap says what bears it. */
function NewLabel({ hand, pocket, code, letter }: NewProps) {
  const bind = (thing: string) => {
    const bound = { kind: "label-bound", label: code, container: thing, container_kind: "place", mode: "scan" };
    void hand.record([bound], say("said.bound", { label: shown(code), thing }));
  };
  return (
    <>
      <p class="label">{say("seen.new", { label: shown(code) })}</p>
      <div class="actions two">
        {bearers(pocket, letter).map((thing) => (
          <button type="button" key={thing} onClick={() => bind(thing)}>{thing}</button>
        ))}
      </div>
    </>
  );
}

/** What a label of a kind may be put on. */
function bearers(pocket: Pocket, letter: string): readonly string[] {
  const all: Readonly<Record<string, readonly string[]>> = {
    O: pocket.openings.map((each) => each.opening),
    P: pocket.parts.map((each) => each.part),
    W: pocket.wrenches.map((each) => each.wrench),
    K: pocket.kits.map((each) => each.kit),
    H: pocket.people.map((each) => each.name),
    M: pocket.machine ? [pocket.machine] : [],
    J: [pocket.job],
  };
  const borne = new Set(pocket.labels.filter((each) => each.code.startsWith(letter) && !each.retired).map((each) => each.thing));
  return (all[letter] ?? []).filter((thing) => !borne.has(thing));
}
