import type { Message } from "../words/say";

/** Words in the names of things that call for a caution (practice 7); own choice of words, common practice. */
const BY_NAME: readonly (readonly [RegExp, Message])[] = [
  [/batter/i, "beware.battery"],
  [/high.?volt|\bhv\b|orange cable|hybrid/i, "beware.voltage"],
  [/air.?bag|belt tension|pretension|squib/i, "beware.airbag"],
  [/fuel|petrol|\bgas\b|diesel|injector|carburet/i, "beware.fuel"],
  [/spring|tensioner|recoil/i, "beware.springs"],
  [/\bjack|stand\b|raised|lift|slip\b/i, "beware.lifted"],
  [/\bpto\b|baler|auger|flywheel/i, "beware.driven"],
  [/hydraul/i, "beware.hydraulic"],
  [/receiver|pressure vessel|air tank|^air$/i, "beware.pressure"],
  [/refrigerant|air.?con/i, "beware.refrigerant"],
  [/coolant|engine oil|radiator|header tank|thermostat/i, "beware.hot"],
  [/brake|steer|wheel|lifting/i, "beware.critical"],
  [/propeller|magneto/i, "beware.propeller"],
  [/sea-?cock|raw-?water|through-?hull|stern gland/i, "beware.waterline"],
  [/thread-?locker|solvent|brake dust/i, "beware.chemicals"],
  [/magnet\b/i, "beware.magnet"],
];

/** Name the cautions that an act on something calls for, at the moment it matters; none twice. */
export function cautionsOf(act: string, thing: string, licensed: readonly string[]): readonly Message[] {
  const named = BY_NAME.filter(([words]) => words.test(thing)).map(([, message]) => message);
  const more: Message[] = [];
  if (act === "drained") more.push("beware.drained");
  if (act === "tighten") more.push("beware.torque");
  if (act === "tighten" && /brake|steer|wheel/i.test(thing)) more.push("beware.critical");
  if (licensed.includes("aviation")) more.push("beware.aircraft");
  return [...new Set([...named, ...more])];
}
