import "../styles/desk.css";

import type { ComponentType } from "preact";

import { Later } from "../parts/later";
import desk from "../words/en/desk.json";
import { learnWords, say } from "../words/say";
import { DeskHead } from "./head";
import type { DeskRoute, ReviewView, ShopView } from "./route";

learnWords(desk);

type JobScreen = ComponentType<{ readonly job: string; readonly about: string }>;
type ShopScreen = ComponentType<{ readonly about: string }>;

const OF_SHOP: Record<ShopView, () => Promise<ShopScreen>> = {
  board: () => import("./board").then(({ Board }) => Board),
  search: () => import("./search").then(({ Search }) => Search),
  statistics: () => import("./statistics").then(({ Statistics }) => Statistics),
  questions: () => import("./questions").then(({ Questions }) => Questions),
  labels: () => import("./labels").then(({ Labels }) => Labels),
  transfer: () => import("./transfer").then(({ Transfer }) => Transfer),
};
const OF_JOB: Record<ReviewView, () => Promise<JobScreen>> = {
  review: () => import("./review").then(({ Review }) => Review),
  pairs: () => import("./pairs").then(({ Pairs }) => Pairs),
  machine: () => import("./machine").then(({ Machine }) => Machine),
  "torque-table": () => import("./torque_table").then(({ TorqueTable }) => TorqueTable),
  trays: () => import("./trays").then(({ Trays }) => Trays),
  history: () => import("./history").then(({ History }) => History),
  "handover-sheet": () => import("./handover_sheet").then(({ HandoverSheet }) => HandoverSheet),
  release: () => import("./release").then(({ Release }) => Release),
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
