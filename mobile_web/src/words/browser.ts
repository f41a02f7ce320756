import { say } from "./say";

const SYSTEMS = ["Android", "iPhone", "iPad", "Windows", "Mac OS X", "Linux"] as const;

/** Say in a few words what kind of device a browser calls itself; its own claim, no more. */
export function browserWords(agent: string): string {
  return SYSTEMS.find((name) => agent.includes(name)) ?? (agent.split(/[\s/]/)[0] || say("devices.unknown"));
}
