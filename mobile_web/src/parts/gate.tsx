import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";

import { gate } from "../sync/gate";
import { say } from "../words/say";
import { Later } from "./later";

const load = () => import("../who/here").then(({ loadSignIn }) => loadSignIn());

/** Fetched while there is a network: a phone that locks itself out of reach must still say so. */
const FETCH_AFTER_MS = 20_000;

/** Show the screen that was asked for once somebody is signed in; until then the way to sign in, at the same address. */
export function Gate({ children }: { readonly children: ComponentChildren }) {
  useEffect(() => {
    const later = setTimeout(() => void load().catch(() => undefined), FETCH_AFTER_MS);
    return () => clearTimeout(later);
  }, []);
  if (gate.value === "open") return <>{children}</>;
  if (gate.value === "looking") return <p class="waiting" role="status">{say("sign.looking")}</p>;
  return <Later key="sign in" load={load} what={say("sign.title")} with={{}} />;
}
