import { torqueUnit } from "../words/newton_metres";
import { asked, type Answer } from "./api";
import { client } from "./client";

const KEPT = "torque unit";

/** Ask how the shop writes torques; out of reach, as it did last. */
export async function askShop(): Promise<void> {
  use(keptUnit());
  const answer = await asked(client.GET("/api/shop"));
  if (!("here" in answer)) return;
  use(answer.here.torque_unit);
  try {
    localStorage.setItem(KEPT, answer.here.torque_unit);
  } catch {
    return;
  }
}

/** Ask whether this shop has one person only, who may sign for their own work. */
export async function isShopOfOne(): Promise<Answer<boolean>> {
  const answer = await asked(client.GET("/api/shop"));
  return "here" in answer ? { here: answer.here.one_person } : answer;
}

function keptUnit(): string | null {
  try {
    return localStorage.getItem(KEPT);
  } catch {
    return null;
  }
}

function use(unit: string | null): void {
  torqueUnit.value = unit === "lbf·ft" ? unit : "N·m";
}
