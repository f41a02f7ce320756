import { useEffect, useState } from "preact/hooks";

import { listChecks, type CheckPage } from "../sync/api";
import { say } from "../words/say";

let asked: Promise<readonly CheckPage[]> | undefined;

/** What clears a finding, in the words of the check's own manual page. */
export function Cure({ check }: { readonly check: string }) {
  const [pages, setPages] = useState<readonly CheckPage[]>([]);
  useEffect(() => {
    asked ??= listChecks().then((answer) => ("here" in answer ? answer.here : []));
    void asked.then(setPages);
  }, []);
  const page = pages.find((known) => known.name === check);
  if (!page) return null;
  return (
    <section class="cure">
      <h3>{say("checks.clear")}</h3>
      <p>{page.clear}</p>
    </section>
  );
}
