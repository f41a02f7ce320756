import type { Step } from "../sync/hand";
import { asPrinted } from "../scan/label_code";
import messages from "./en/served.json";
import { language } from "./language";
import { learnWords, say, type Message } from "./say";

learnWords(messages);

/** Sentences that the server always says in the same words, and the message that says each in the page's language. */
const SAME: Readonly<Record<string, Message>> = {
  "Half done": "served.half.done",
  "Danger now": "served.danger",
  "Open mouths": "served.mouths",
  Inside: "served.inside",
  "Loosened or apart": "served.apart",
  "Bags and trays": "containers.title",
  "To renew, on order": "served.renew",
  "Findings and decisions": "served.findings",
  "Said, not scanned": "served.said",
  Signatures: "served.signatures",
  "Nothing recorded.": "served.nothing",
  "Nothing more.": "served.nothing.more",
  "No bag or tray holds anything.": "served.no.bag",
  "Hands, hair, sleeves and people clear.": "served.hands",
  "Nothing on the list does not mean that nothing is wrong: only what was recorded can be on it.": "served.list",
  "Hang the DO NOT START tag on the key or starter, where nobody can miss it.": "served.tag",
  "The value comes from the maker's manual for this machine. Enter the manual, its edition and the page.": "served.value",
  "Suggested order: the maker's manual first.": "served.order",
  "Estimate, not a specification: the maker's manual first.": "served.estimate",
};
const STEPS = ["fit", "tighten", "latch", "put on", "connect", "try", "close", "renew", "call", "set", "fill", "restore", "test"];

/** Say a sentence of the server's in the page's language where it is a standing one; labels as they are printed. */
export function served(sentence: string): string {
  const message = SAME[sentence];
  return message ? say(message) : asPrinted(sentence);
}

/** Say a next step: the server's own sentence in English, elsewhere a shorter one made from its kind and name. */
export function stepWords({ kind, element, sentence }: Pick<Step, "kind" | "element" | "sentence">): string {
  if (language.value === "en" || !STEPS.includes(kind)) return asPrinted(sentence);
  return say(`served.step.${kind.replace(" ", "-")}` as Message, { name: element });
}
