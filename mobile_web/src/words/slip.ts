import { checkCharacter, readLabel, shown } from "../scan/label_code";
import { say } from "./say";

/** What came of a code typed at the keypad: the code, or one sentence that says what is wrong with it. */
export type Typed = { readonly code: string } | { readonly slip: string };

/** Read a code as typed; the check character catches a slip, and the sentence says so. */
export function typedCode(text: string): Typed {
  const plain = text.replace(/[^0-9A-Za-z]/g, "").toUpperCase();
  if (!plain) return { slip: say("slip.nothing") };
  const found = readLabel(plain);
  if (found?.checked) return { code: found.code };
  if (found) return { slip: say("slip.character", { code: shownAnyway(found.code) }) };
  if (!/^[TBPOCKWHMJS0]/.test(plain)) return { slip: say("slip.letter", { letter: plain.slice(0, 1) }) };
  if (plain.length < 6) return { slip: say("slip.short", { code: plain }) };
  return { slip: say("slip.shape", { code: plain }) };
}

function shownAnyway(code: string): string {
  const right = code.slice(0, -1) + checkCharacter(code.slice(0, -1));
  return `${shown(right).slice(0, -1)}${code.slice(-1)}`;
}
