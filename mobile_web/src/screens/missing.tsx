import { useTitle } from "../parts/title";
import { jobIn, pathOf } from "../route";
import { say } from "../words/say";

/** An address that names no screen: what was asked for, and the ways on from here. */
export function Missing() {
  useTitle(say("missing.title"));
  const job = jobIn(location.pathname);
  return (
    <>
      <header>
        <h1 tabIndex={-1}>{say("missing.title")}</h1>
      </header>
      <p>{say("missing.more", { address: readable(location.pathname) })}</p>
      <p class="actions">
        {job && (
          <a class="button" href={pathOf({ screen: "findings", job })}>
            {say("missing.job", { job })}
          </a>
        )}
        <a class="button" href="/">
          {say("label.to.jobs")}
        </a>
      </p>
    </>
  );
}

function readable(path: string): string {
  try {
    return decodeURI(path);
  } catch {
    return path;
  }
}
