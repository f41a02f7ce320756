import { signal } from "@preact/signals";

import { outbox } from "../outbox/here";
import { phone } from "../outbox/sight";
import { say } from "../words/say";
import { asked, type Answer, type Schemas } from "./api";
import { client } from "./client";
import { gate, whenNotSignedIn } from "./gate";
import { askShop } from "./shop";

export type Session = Schemas["Session"];

/** What the server said last of who is here; null while it was not asked or did not answer. */
export const session = signal<Session | null>(null);
/** Why the server could not be asked. */
export const unasked = signal<string | null>(null);

const LOOK_EVERY_MS = 60_000;

/** Find out who is signed in: from what this phone knows at once, then from the server. Without a network the former holds. */
export async function startSession(): Promise<void> {
  whenNotSignedIn(() => void lookAgain());
  await outbox;
  if (isIn()) gate.value = "open";
  setInterval(shutAfterTwelveHours, LOOK_EVERY_MS);
  document.addEventListener("visibilitychange", shutAfterTwelveHours);
  await lookAgain();
}

/** Ask the server who is signed in here. */
export async function lookAgain(): Promise<void> {
  const answer = await asked(client.GET("/api/session"));
  if ("here" in answer) return take(answer.here);
  unasked.value = answer.trouble;
  if (gate.value === "looking") gate.value = isIn() ? "open" : "pin";
}

export async function signIn(name: string, pin: string): Promise<string | null> {
  return taken(asked(client.POST("/api/session", { body: { name, pin, device: deviceHere() } })));
}

export async function makeFirstLead(code: string, name: string, pin: string): Promise<string | null> {
  return taken(asked(client.POST("/api/first-lead", { body: { code, name, pin, device: deviceHere() } })));
}

export async function holdDevice(name: string): Promise<string | null> {
  return taken(asked(client.PUT("/api/session/holder", { body: { name } })));
}

export async function changePin(old: string, next: string): Promise<string | null> {
  return taken(asked(client.PUT("/api/session/pin", { body: { old, new: next } })));
}

/** Sign one person out, or everybody; what waits is sent first, if the server can be reached. */
export async function signOut(person: string | null): Promise<string | null> {
  await (await outbox).send();
  return taken(asked(client.DELETE("/api/session", { params: { query: person === null ? {} : { person } } })));
}

async function taken(asking: Promise<Answer<Session>>): Promise<string | null> {
  const answer = await asking;
  if ("trouble" in answer) return answer.trouble;
  await take(answer.here);
  return null;
}

async function take(found: Session): Promise<void> {
  session.value = found;
  unasked.value = null;
  const opened = await outbox;
  const until = found.people.find(({ name }) => name === found.current)?.until ?? null;
  await opened.belongTo({ device: found.device, seq: found.last_seq, by: found.current, until });
  const wasShut = gate.value !== "open";
  gate.value = found.state === "in" ? "open" : found.state;
  if (found.state === "in" && wasShut) void askShop();
  if (found.state === "in") void (wasShut ? opened.again() : opened.send());
}

function deviceHere(): string | null {
  return phone.value?.device ?? null;
}

function isIn(): boolean {
  const { by = null, until } = phone.value ?? {};
  return by !== null && until !== undefined && until !== null && new Date(until) > new Date();
}

function shutAfterTwelveHours(): void {
  if (gate.value === "open" && !isIn()) gate.value = "pin";
}

/** Say why nobody is in yet. */
export function whyShut(): string {
  const why = gate.value === "cut" ? say("sign.cut") : gate.value === "pin" ? say("sign.pin.again") : "";
  return [why, unasked.value ?? ""].filter(Boolean).join(" ");
}
