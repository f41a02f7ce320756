import { useEffect, useState } from "preact/hooks";

import { HandTop } from "../parts/hand_top";
import { printSheet, takeNumbers } from "../sync/hand";
import { say } from "../words/say";

const BY_HAND = 4;

interface Sheet {
  readonly address: string;
  readonly words: string;
}

/** Say which labels were made, where the server's words name a run of them. */
function madeOf(words: string): string {
  const [, n, first = "", last = ""] = /^(\d+) labels, (\S+) to (\S+)$/.exec(words) ?? [];
  return n === undefined ? words : say("sheet.made", { n: Number(n), first, last });
}

/** Labels: print 24 more bags by one tap, or take numbers to write by hand; no number comes twice. */
export function PrintLabels() {
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const [numbers, setNumbers] = useState<readonly string[]>([]);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => () => (sheet ? URL.revokeObjectURL(sheet.address) : undefined), [sheet]);
  const print = async () => {
    setBusy(true);
    const answer = await printSheet();
    setBusy(false);
    setTrouble("trouble" in answer ? answer.trouble : null);
    if ("here" in answer) setSheet({ address: URL.createObjectURL(answer.here.pdf), words: answer.here.words });
  };
  const byHand = async () => {
    const answer = await takeNumbers(BY_HAND);
    setTrouble("trouble" in answer ? answer.trouble : null);
    if ("here" in answer) setNumbers([...numbers, ...answer.here.codes]);
  };
  return (
    <HandTop job={null} title={say("sheet.title")}>
      <section>
        <h2>{say("sheet.hand")}</h2>
        <p>{say("sheet.hand.how")}</p>
        <button type="button" onClick={() => void byHand()}>
          {say("sheet.hand.go", { n: BY_HAND })}
        </button>
        <ul class="plain numbers">
          {numbers.map((code) => (
            <li key={code}>{code}</li>
          ))}
        </ul>
      </section>
      <section class="low">
        <h2>{say("sheet.printed")}</h2>
        <p>{say("sheet.how")}</p>
        {trouble && <p role="alert">{trouble}</p>}
        {busy && <p role="status">{say("sheet.busy")}</p>}
        {sheet && (
          <div class="card" role="status">
            <p class="headline">
              {madeOf(sheet.words)}
            </p>
            <a class="button shutter" href={sheet.address} download="labels.pdf">
              {say("sheet.open")}
            </a>
          </div>
        )}
        <button type="button" class={sheet ? "" : "shutter"} disabled={busy} onClick={() => void print()}>
          {say("sheet.print")}
        </button>
      </section>
    </HandTop>
  );
}
