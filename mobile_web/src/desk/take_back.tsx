import { useState } from "preact/hooks";

import { reopenJob, withdrawRelease } from "../sync/release";
import { say } from "../words/say";

/** After a release: work goes on, or the release is taken back; both with a reason that stays in the record. */
export function TakeBack({ job, changed }: { readonly job: string; readonly changed: () => void }) {
  const [reason, setReason] = useState("");
  const [trouble, setTrouble] = useState("");
  const go = (act: typeof reopenJob) => async () => {
    const failed = await act(job, reason.trim());
    setTrouble(failed ?? "");
    if (!failed) changed();
  };
  return (
    <details class="no-print">
      <summary>{say("back.title")}</summary>
      <div class="word">
        <label for="back-reason">{say("word.reason")}</label>
        <textarea id="back-reason" rows={2} maxLength={500} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
        {trouble && <p role="alert">{trouble}</p>}
        <div class="tools">
          <button type="button" onClick={() => void go(reopenJob)()}>{say("back.reopen")}</button>
          <button type="button" onClick={() => void go(withdrawRelease)()}>{say("back.withdraw")}</button>
        </div>
      </div>
    </details>
  );
}
