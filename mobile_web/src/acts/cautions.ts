import type { Message } from "../words/say";

/** Words in the names of things, English and German, that call for a caution (practice 7); own choice of words, common practice. */
const BY_NAME: readonly (readonly [RegExp, Message])[] = [
  [/batter|akku/i, "beware.battery"],
  [/high.?volt|\bhv\b|orange cable|hybrid|hochvolt|hochspannung/i, "beware.voltage"],
  [/air.?bag|belt tension|pretension|squib|gurtstraffer/i, "beware.airbag"],
  [/fuel|petrol|\bgas\b|diesel|injector|carburet|kraftstoff|benzin|vergaser|einspritz/i, "beware.fuel"],
  [/spring|tensioner|recoil|feder|spanner\b/i, "beware.springs"],
  [/\bjack|stand\b|raised|lift|slip\b|wagenheber|unterstell|aufgebockt/i, "beware.lifted"],
  [/\bpto\b|baler|auger|flywheel|zapfwelle|gelenkwelle|presse|schnecke|schwungrad/i, "beware.driven"],
  [/hydraul/i, "beware.hydraulic"],
  [/receiver|pressure vessel|air tank|^air$|druckluft|druckbeh|kessel/i, "beware.pressure"],
  [/refrigerant|air.?con|kältemittel|klimaanlage/i, "beware.refrigerant"],
  [/coolant|engine oil|radiator|header tank|thermostat|kühl(?:er|mittel|wasser)|motor(?:en)?öl/i, "beware.hot"],
  [/brake|steer|wheel|lifting|brems|lenk|rad(?:mutter|schraube|nabe)|hebezeug/i, "beware.critical"],
  [/propeller|magneto|zündmagnet/i, "beware.propeller"],
  [/sea-?cock|raw-?water|through-?hull|stern gland|seeventil|seewasser|borddurch|stopfbuchse/i, "beware.waterline"],
  [/thread-?locker|solvent|brake dust|schraubensicherung|lösemittel|bremsstaub/i, "beware.chemicals"],
  [/magnet\b/i, "beware.magnet"],
];

/** Name the cautions that an act on something calls for, at the moment it matters; none twice. */
export function cautionsOf(act: string, thing: string, licensed: readonly string[]): readonly Message[] {
  const named = BY_NAME.filter(([words]) => words.test(thing)).map(([, message]) => message);
  const more: Message[] = [];
  if (act === "drained") more.push("beware.drained");
  if (act === "tighten") more.push("beware.torque");
  if (act === "tighten" && /brake|steer|wheel|brems|lenk|rad(?:mutter|schraube|nabe)/i.test(thing)) more.push("beware.critical");
  if (licensed.includes("aviation")) more.push("beware.aircraft");
  return [...new Set([...named, ...more])];
}
