import { LANGUAGES, language, type Language } from "../words/language";
import { say } from "../words/say";
import { speak } from "../words/speak";

/** Choose the language of this device; each is named in itself. */
export function LanguageChoice() {
  return (
    <section>
      <h2 id="language">{say("phone.language")}</h2>
      <div class="actions two" role="group" aria-labelledby="language">
        {(Object.keys(LANGUAGES) as Language[]).map((each) => (
          <button type="button" key={each} lang={each} aria-pressed={language.value === each} onClick={() => void speak(each, true)}>
            {LANGUAGES[each]}
          </button>
        ))}
      </div>
    </section>
  );
}
