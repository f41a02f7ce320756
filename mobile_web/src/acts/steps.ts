import { phone } from "../outbox/sight";
import { say } from "../words/say";
import { inOrder, textOf, type Act, type Answers } from "./act";
import { choice, name, offered } from "./options";

const called = (answers: Answers) => textOf(answers, "name");
const USUAL = ["step.isolate", "step.apart", "step.look", "step.together", "step.fill", "step.run"] as const;

/** A step begins: what is recorded from now on belongs to it. */
export const stepBegun: Act = {
  name: "step-begun",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const begun = new Set(pocket.steps.map((each) => each.step));
    return inOrder(name("ask.step", offered(USUAL, []).filter((each) => !begun.has(each.value)), "unnamed.step"))(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "step-started", name: called(answers), step: called(answers) }],
  said: (answers) => say("said.step-begun", { name: called(answers) }),
};

/** A step ends: with all that was touched in it finished, or left apart for now; the first is a claim that is held against the record. */
export const stepDone: Act = {
  name: "step-done",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const open = pocket.steps.filter((each) => !each.done).map((each) => ({ value: each.step, label: each.step, hint: each.by === phone.value?.by ? "" : each.by }));
    return inOrder(name("ask.step.done", open.reverse(), null), choice("left", "ask.step.left", [["finished", "step.finished"], ["apart", "step.left.apart"]]))(pocket, answers);
  },
  entries: (pocket, answers) => {
    const touched = pocket.steps.find((each) => each.step === called(answers))?.elements ?? [];
    return [{ kind: "step-done", name: called(answers), step: called(answers), elements: textOf(answers, "left") === "finished" ? touched : [] }];
  },
  said: (answers) => say(textOf(answers, "left") === "finished" ? "said.step-done" : "said.step-left", { name: called(answers) }),
};
