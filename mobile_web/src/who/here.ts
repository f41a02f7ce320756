import type { ComponentType } from "preact";

import "../styles/who.css";
import who from "../words/en/who.json";
import { learnWords } from "../words/say";
import type { WhoView } from "./route";

learnWords(who);

/** The screens about who is here; each comes when somebody goes there. */
export const WHO: Readonly<Record<WhoView, () => Promise<ComponentType<object>>>> = {
  me: () => import("./me").then(({ Me }) => Me),
  people: () => import("./people").then(({ People }) => People),
  devices: () => import("./devices").then(({ Devices }) => Devices),
  phone: () => import("./another_phone").then(({ AnotherPhone }) => AnotherPhone),
  held: () => import("./held").then(({ Held }) => Held),
};
/** What stands before all of them while nobody is signed in. */
export const loadSignIn = (): Promise<ComponentType<object>> => import("./sign_in").then(({ SignIn }) => SignIn);
