import type { Severity } from "../sync/api";
import { say } from "../words/say";

/** A severity as a shape and a word, so that no colour has to be seen. */
export function SeverityMark({ severity }: { readonly severity: Severity }) {
  return (
    <span class={`severity ${severity}`}>
      <SeverityShape severity={severity} />
      {say(`severity.${severity}`)}
    </span>
  );
}

/** The shape alone, where its word stands beside it. */
export function SeverityShape({ severity }: { readonly severity: Severity }) {
  return (
    <svg class="shape" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true" focusable="false">
      {severity === "stop" && (
        <>
          <rect x="2" y="2" width="20" height="20" fill="currentColor" />
          <path d="M6 12h12" class="cut" />
        </>
      )}
      {severity === "decide" && (
        <>
          <path d="M12 2 22 21H2Z" fill="none" class="line" />
          <path d="M12 9v6M12 17.2v1.6" class="line" />
        </>
      )}
      {severity === "note" && <circle cx="12" cy="12" r="8" fill="none" class="line" />}
    </svg>
  );
}
