import { useTitle } from "../parts/title";
import { say } from "../words/say";

/** An address that names no screen. */
export function Missing() {
  useTitle(say("missing.title"));
  return (
    <>
      <header>
        <h1 tabIndex={-1}>{say("missing.title")}</h1>
      </header>
      <p>{say("missing.more")}</p>
      <p class="actions">
        <a class="button" href="/">
          {say("label.to.jobs")}
        </a>
      </p>
    </>
  );
}
