import type { FunctionComponent } from "preact";

import "../styles/bag.css";
import "../styles/pins.css";
import "../styles/work.css";
import "../words/bagging";
import work from "../words/en/work.json";
import cautions from "../words/en/work_cautions.json";
import { learnWords } from "../words/say";
import { Back } from "./back";
import { Hub } from "./hub";
import type { WorkRoute, WorkView } from "./route";
import { Where } from "./where";

learnWords({ ...work, ...cautions });

/** The screens at the machine, fetched together when the first of them is opened. */
export const WORK: Readonly<Record<WorkView, FunctionComponent<Pick<WorkRoute, "job" | "about">>>> = { hub: Hub, where: Where, back: Back };
