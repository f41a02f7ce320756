import type { ComponentChildren } from "preact";

import { gate } from "../sync/gate";
import { say } from "../words/say";
import { Later } from "./later";

const load = () => import("../who/here").then(({ loadSignIn }) => loadSignIn());

/** Show the screen that was asked for once somebody is signed in; until then the way to sign in, at the same address. */
export function Gate({ children }: { readonly children: ComponentChildren }) {
  if (gate.value === "open") return <>{children}</>;
  if (gate.value === "looking") return <p class="waiting" role="status">{say("sign.looking")}</p>;
  return <Later key="sign in" load={load} what={say("sign.title")} with={{}} />;
}
