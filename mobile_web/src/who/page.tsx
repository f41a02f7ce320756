import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { session } from "../sync/session";
import { useLoaded, type Loaded } from "../sync/loaded";
import type { Answer } from "../sync/api";
import { say } from "../words/say";

/** The frame of these screens: the way up, one heading. */
export function WhoPage({ title, up, children }: { readonly title: string; readonly up: string; readonly children: ComponentChildren }) {
  useTitle(title);
  return (
    <div class="who-page">
      <p class="up">
        <a href={up}>{up === "/" ? say("job.all") : say("who.here")}</a>
      </p>
      <h1 tabIndex={-1}>{title}</h1>
      {children}
    </div>
  );
}

/** Tell whether whoever holds the device is a lead, as far as this page knows. */
export function isLead(): boolean {
  const { current, people } = session.value ?? { current: null, people: [] };
  return people.some(({ name, role }) => name === current && role === "lead");
}

/** A list that acts change: the newest answer stands, and a refusal stands above it in words. */
export function useChanging<T>(ask: () => Promise<Answer<T>>) {
  const [first, again] = useLoaded(ask);
  const [changed, setChanged] = useState<T | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const act = async (doing: Promise<Answer<T>>): Promise<boolean> => {
    const answer = await doing;
    setTrouble("trouble" in answer ? answer.trouble : null);
    if ("here" in answer) setChanged(answer.here);
    return "here" in answer;
  };
  const loaded: Loaded<T> = changed === null ? first : { here: changed };
  return { loaded, again, act, trouble };
}
