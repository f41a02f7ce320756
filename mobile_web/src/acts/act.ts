import type { Draft, Drafts } from "../draft/taken_back";
import type { Pocket } from "../pocket/shape";
import type { Message } from "../words/say";

/** What was answered so far, by the name of the question. */
export type Answers = Readonly<Record<string, string | number>>;

/** Something to choose; `hint` says more in small letters. */
export interface Option {
  readonly value: string;
  readonly label: string;
  readonly hint?: string;
}

/** What a figure is of, chosen on the same screen: the first stands chosen; an option's hint is its unit. */
export interface Picked {
  readonly key: string;
  readonly title: Message;
  readonly options: readonly Option[];
}

/** One question of an act; each is answered with one tap, but for figures that nobody foresaw. */
export type Question =
  | { readonly ask: "name"; readonly key: string; readonly title: Message; readonly options: readonly Option[]; readonly unnamed: Message | null }
  | { readonly ask: "choice"; readonly key: string; readonly title: Message; readonly options: readonly Option[] }
  | { readonly ask: "count"; readonly key: string; readonly title: Message; readonly most: number }
  | { readonly ask: "amount"; readonly key: string; readonly title: Message; readonly unit: string; readonly offered: readonly number[]; readonly of?: Picked }
  | { readonly ask: "several"; readonly key: string; readonly title: Message; readonly options: readonly Option[]; readonly most: number };

/** What is asked after an act is recorded, as an act of its own; null when nothing is. */
export interface Follow {
  readonly act: string;
  readonly answers: Answers;
}

/** One disturbance or its cure: what is asked, what is recorded, what is said. All of it is pure. */
export interface Act {
  readonly name: string;
  readonly side: "off" | "back";
  /** The next question, null when all is known. */
  readonly next: (pocket: Pocket, answers: Answers) => Question | null;
  readonly entries: (pocket: Pocket, answers: Answers) => readonly Draft[];
  readonly said: (answers: Answers, pocket: Pocket) => string;
  /** Which element a photo taken with it shows, and how. */
  readonly shape: "before" | "during" | "after" | "inside" | "defect";
  readonly follow?: (answers: Answers, pocket: Pocket) => Follow | null;
}

/** Give an answer as text. */
export function textOf(answers: Answers, key: string): string {
  return String(answers[key] ?? "");
}

/** Give an answer as a number. */
export function numberOf(answers: Answers, key: string): number {
  return Number(answers[key] ?? 0);
}

/** Ask the questions in their order until one has no answer. */
export function inOrder(...questions: readonly Question[]): (_: Pocket, answers: Answers) => Question | null {
  return (_, answers) => questions.find((each) => answers[each.key] === undefined) ?? null;
}

/** Put a photo's entries before those of an act; every entry of the act names the photo. */
export function withPhoto(drafts: Drafts, photo: Draft | null): Drafts {
  if (!photo) return drafts;
  return [photo, ...drafts.map((draft) => ({ ...draft, photos: [photo["photo"]] }))];
}
