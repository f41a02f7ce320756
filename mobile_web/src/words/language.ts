import { signal } from "@preact/signals";

/** The languages that the page speaks; each has a folder of messages of that name. */
export const LANGUAGES = { en: "English", de: "Deutsch" } as const;
export type Language = keyof typeof LANGUAGES;

const KEPT = "language";
const LOCALES: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

/** What was chosen on this device; null follows the device's own language. */
export function chosenLanguage(): Language | null {
  try {
    return known(localStorage.getItem(KEPT));
  } catch {
    return null;
  }
}

/** Keep a choice for the next time. */
export function keepLanguage(language: Language): void {
  try {
    localStorage.setItem(KEPT, language);
  } catch {
    return;
  }
}

/** The first of the device's languages that the page speaks. */
export function deviceLanguage(wanted: readonly string[]): Language {
  return wanted.map((each) => known(each.slice(0, 2).toLowerCase())).find((each) => each !== null) ?? "en";
}

/** The language that the page speaks now; what was said in another one is said anew when it changes. */
export const language = signal<Language>("en");

/** How numbers and days are written: by the device's own region where it fits the language, else by a usual one. */
export function locale(): string {
  const own = globalThis.navigator?.language ?? "";
  return own.toLowerCase().startsWith(language.value) && own !== "en-US" ? own : LOCALES[language.value];
}

function known(text: string | null): Language | null {
  return text !== null && text in LANGUAGES ? (text as Language) : null;
}
