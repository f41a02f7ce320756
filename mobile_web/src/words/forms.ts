import { signal } from "@preact/signals";

import type { Schemas } from "../sync/api";
import { number } from "./number";

/** How a sentence of the server's is made: an English form with gaps, and what fills them. */
export type Form = Schemas["Form"];
type Own = Readonly<Record<string, string>>;

/** The forms of the language that is spoken, by the English ones; null is English. */
const foreign = signal<Own | null>(null);
const GAP = /\{(\w+)\}/g;
const DECIMAL = /^[-+]?\d+\.\d+$/;

/** Say the server's sentences by these forms from now on. */
export function speakForms(forms: Own | null): void {
  foreign.value = forms;
}

/** Say a sentence of the server's in the page's language, from the form that came with it; what has none stays English. */
export function inWords(text: string, forms: readonly Form[] = []): string {
  const own = foreign.value;
  if (!own) return text;
  const form = forms.find((each) => filled(each.form, each, english) === text);
  return form ? spoken(form, own) : (own[text] ?? text);
}

function spoken(form: Form, own: Own): string {
  return filled(own[form.form] ?? form.form, form, (part) => spoken(part, own), written);
}

const english = (form: Form): string => filled(form.form, form, english);
const written = (name: string): string => (DECIMAL.test(name) ? number(Number(name), 6) : name);

function filled(pattern: string, { parts }: Form, said: (part: Form) => string, named: (name: string) => string = String): string {
  return pattern.replace(GAP, (gap, name: string) => {
    const part = parts[name];
    return part === undefined ? gap : typeof part === "string" ? named(part) : said(part);
  });
}
