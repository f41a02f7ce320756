import type { ComponentType } from "preact";

import "../styles/hand.css";
import "../words/bagging";
import hand from "../words/en/hand.json";
import { learnWords } from "../words/say";
import type { FirstView, HandView } from "./route";

interface AboutJob {
  readonly job: string;
  readonly about: string;
}

learnWords(hand);

/** The screens for whoever stands at the machine; each comes when somebody goes there. */
export const HAND: Readonly<Record<HandView, () => Promise<ComponentType<AboutJob>>>> = {
  next: () => import("../screens/next").then(({ Next }) => Next),
  start: () => import("../screens/start").then(({ Start }) => Start),
  orphan: () => import("../screens/orphan").then(({ Orphan }) => Orphan),
  "give-over": () => import("../screens/give_over").then(({ GiveOver }) => GiveOver),
  "take-over": () => import("../screens/take_over").then(({ TakeOver }) => TakeOver),
  find: () => import("../screens/find").then(({ Find }) => Find),
  correct: () => import("../screens/correct").then(({ Correct }) => Correct),
  practice: () => import("../screens/practice").then(({ Practice }) => Practice),
  looks: () => import("../screens/looks").then(({ Looks }) => Looks),
};
export const FIRST: Readonly<Record<FirstView, () => Promise<ComponentType<object>>>> = {
  begin: () => import("../screens/begin").then(({ Begin }) => Begin),
  "new-job": () => import("../screens/new_job").then(({ NewJob }) => NewJob),
  "print-labels": () => import("../screens/print_labels").then(({ PrintLabels }) => PrintLabels),
};
