import { asPrinted } from "../scan/label_code";
import messages from "./en/served.json";
import { inWords, type Form } from "./forms";
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
  "The value comes from the maker's manual for this machine. Enter the manual, its edition and the page.": "served.value",
  "Suggested order: the maker's manual first.": "served.order",
  "Estimate, not a specification: the maker's manual first.": "served.estimate",
};

/** Say a sentence of the server's in the page's language, from its form or where it is a standing one; labels as they are printed. */
export function served(sentence: string, forms: readonly Form[] = []): string {
  const message = SAME[sentence];
  return message ? say(message) : asPrinted(inWords(sentence, forms));
}
