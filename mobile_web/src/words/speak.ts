import { speakForms } from "./forms";
import { chosenLanguage, deviceLanguage, keepLanguage, language, type Language } from "./language";
import { speakWith } from "./say";

/** Speak a language from now on; its messages are fetched when they are first needed, English is always here. */
export async function speak(wanted: Language, keep = false): Promise<void> {
  const own = wanted === "de" ? await import("./de").catch(() => null) : null;
  if (keep) keepLanguage(wanted);
  language.value = own ? wanted : "en";
  speakWith(own?.de ?? null);
  speakForms(own?.forms ?? null);
  document.documentElement.lang = language.value;
}

/** Speak as was chosen on this device, else as the device itself does. */
export async function speakAsHere(): Promise<void> {
  const wanted = chosenLanguage() ?? deviceLanguage(navigator.languages);
  if (wanted !== language.value) await speak(wanted);
}
