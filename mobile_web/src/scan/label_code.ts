/** What stands in a scanned symbol: `code` compact and in capitals, `checked` if its last character fits. */
export interface ReadCode {
  readonly code: string;
  readonly checked: boolean;
}

const ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const KINDS = "TBPOCKWHMJS";
const LONGEST_TEXT = 300;
const DASHES = /[\u2010-\u2015\u2212]/g;
const SHAPE = /^([A-Z0])[- ]*([0-9OIL]{4,6})[- ]*([0-9A-Z])$/;
const ADDRESS = /^https?:\/\/[0-9a-z.\-:@[\]]+(?:\/[0-9a-z._~%+-]*)*?\/[lt]\/([0-9a-z-]+)\/?(?:[?#][!-~]*)?$/i;
const SEGMENT = /^[0-9A-Z]{4,12}$/;
const PRINTABLE_ASCII = /^[ -~]*$/;

/** Compute the check character of letters and digits by ISO 7064, MOD 37,36 (hybrid system). */
export function checkCharacter(text: string): string {
  let rest = 36;
  for (const character of text) rest = (((rest + ALPHABET.indexOf(character)) % 36 || 36) * 2) % 37;
  return ALPHABET.charAt((37 - rest) % 36);
}

/** Write a code as people read it: T-0042-E. What is none of ours stays as it is. */
export function shown(code: string): string {
  const own = ours(code);
  return own?.checked ? `${own.code.slice(0, 1)}-${own.code.slice(1, -1)}-${own.code.slice(-1)}` : code;
}

/** Write every label code in a sentence as it is printed; what only looks like one stays. */
export function asPrinted(sentence: string): string {
  return sentence.replace(/\b[A-Z][0-9]{4,6}[0-9A-Z]\b/g, shown);
}

/** Read what a decoder found in a symbol, as the server's `label_code.read` does; null when it is no label. */
export function readLabel(text: string): ReadCode | null {
  const plain = text.replace(DASHES, "-");
  if (text.length > LONGEST_TEXT || !PRINTABLE_ASCII.test(plain)) return null;
  const bare = plain.trim();
  const segment = ADDRESS.exec(bare)?.[1]?.toUpperCase();
  const found = ours(segment ?? bare.toUpperCase());
  if (found || segment === undefined) return found;
  return SEGMENT.test(segment) ? { code: segment, checked: false } : null;
}

function ours(text: string): ReadCode | null {
  const [, first, middle, last] = SHAPE.exec(text) ?? [];
  if (first === undefined || middle === undefined || last === undefined) return null;
  const [letter, digits] = [first.replace("0", "O"), slipsMended(middle)];
  if (!KINDS.includes(letter) || Number(digits) === 0 || (digits.length > 4 && digits.startsWith("0"))) return null;
  const expected = checkCharacter(letter + digits);
  const checked = slipsMended(last) === slipsMended(expected);
  return { code: letter + digits + (checked ? expected : last), checked };
}

function slipsMended(text: string): string {
  return text.replace(/O/g, "0").replace(/[IL]/g, "1");
}
