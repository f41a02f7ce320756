import "../styles/desk.css";

import type { ComponentType } from "preact";

import { Later } from "../parts/later";
import desk from "../words/en/desk.json";
import { learnWords, say } from "../words/say";
import { DeskHead } from "./head";
import type { DeskRoute, ReviewView, ShopView } from "./route";

learnWords(desk);

/** Fetch a screen with the words and looks that the board does not need. */
const withRest = async <T,>(screen: Promise<T>): Promise<T> => (await Promise.all([screen, import("./rest")]))[0];

type JobScreen = ComponentType<{ readonly job: string; readonly about: string }>;
type ShopScreen = ComponentType<{ readonly about: string }>;

const OF_SHOP: Record<ShopView, () => Promise<ShopScreen>> = {
  board: () => import("./board").then(({ Board }) => Board),
  search: () => withRest(import("./search").then(({ Search }) => Search)),
  statistics: () => withRest(import("./statistics").then(({ Statistics }) => Statistics)),
  questions: () => withRest(import("./questions").then(({ Questions }) => Questions)),
  labels: () => withRest(import("./labels").then(({ Labels }) => Labels)),
  transfer: () => withRest(import("./transfer").then(({ Transfer }) => Transfer)),
};
const OF_JOB: Record<ReviewView, () => Promise<JobScreen>> = {
  review: () => withRest(import("./review").then(({ Review }) => Review)),
  pairs: () => withRest(import("./pairs").then(({ Pairs }) => Pairs)),
  machine: () => withRest(import("./machine").then(({ Machine }) => Machine)),
  "torque-table": () => withRest(import("./torque_table").then(({ TorqueTable }) => TorqueTable)),
  trays: () => withRest(import("./trays").then(({ Trays }) => Trays)),
  history: () => withRest(import("./history").then(({ History }) => History)),
  "handover-sheet": () => withRest(import("./handover_sheet").then(({ HandoverSheet }) => HandoverSheet)),
  release: () => withRest(import("./release").then(({ Release }) => Release)),
};

/** The lead's desk: where one is, a search box, and the screen that was asked for, fetched when it is. */
export function Desk({ route }: { readonly route: DeskRoute }) {
  const what = say(`desk.${route.view}`);
  return (
    <div class="desk">
      <DeskHead here={route} />
      {route.screen === "desk" ? (
        <Later load={OF_SHOP[route.view]} what={what} with={{ about: route.about }} />
      ) : (
        <Later load={OF_JOB[route.view]} what={what} with={{ job: route.job, about: route.about }} />
      )}
    </div>
  );
}
