import { useEffect, useMemo, useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { foundPiece, millimetres, type Piece } from "../draft/orphan";
import { HandTop } from "../parts/hand_top";
import { LiveView } from "../parts/live_view";
import { UndoBar } from "../parts/undo_bar";
import { handPath } from "../hand/route";
import { Scanner } from "../scan/scanner";
import { findHome, findHomeInPhoto, type Offer, type Orphan as Lone } from "../sync/hand";
import { useActs } from "../sync/use_acts";
import { say } from "../words/say";

interface Props {
  readonly job: string;
}
type How = "caliper" | "photo";
interface Looked {
  readonly pieces: readonly Lone[];
  readonly how: How;
}

/** Where does this go? A bolt without a bag: a photo beside a label, or thickness and length; three homes with reasons. */
export function Orphan({ job }: Props) {
  return (
    <HandTop job={job} title={say("orphan.title")}>
      <Search job={job} />
    </HandTop>
  );
}

function Search({ job }: Props) {
  const [looked, setLooked] = useState<Looked | null>(null);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const ask = async <T,>(asking: Promise<{ here: T } | { trouble: string }>, taken: (here: T) => Looked) => {
    setBusy(true);
    const answer = await asking;
    setBusy(false);
    setTrouble("trouble" in answer ? answer.trouble : null);
    if ("here" in answer) setLooked(taken(answer.here));
  };
  const shot = ({ bytes, type }: Shot) =>
    void ask(findHomeInPhoto(job, new Blob([bytes], { type })), (pieces) => ({ pieces, how: "photo" }));
  const typed = (diameter: number | null, length: number | null) =>
    void ask(findHome(job, diameter, length), (piece) => ({ pieces: [piece], how: "caliper" }));
  return (
    <>
      {trouble && <p role="alert">{trouble}</p>}
      {busy && <p role="status">{say("orphan.looking")}</p>}
      {looked ? (
        <>
          <Homes job={job} looked={looked} />
          <button type="button" onClick={() => setLooked(null)}>
            {say("orphan.again")}
          </button>
        </>
      ) : (
        !busy && <Ask shot={shot} typed={typed} />
      )}
    </>
  );
}

interface AskProps {
  readonly shot: (shot: Shot) => void;
  readonly typed: (diameter: number | null, length: number | null) => void;
}

function Ask({ shot, typed }: AskProps) {
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const [diameter, setDiameter] = useState("");
  const [length, setLength] = useState("");
  const [slip, setSlip] = useState(false);
  const go = (event: Event) => {
    event.preventDefault();
    const [d, l] = [millimetres(diameter), millimetres(length)];
    const wrong = (diameter.trim() !== "" && d === null) || (length.trim() !== "" && l === null) || (d === null && l === null);
    setSlip(wrong);
    if (!wrong) typed(d, l);
  };
  return (
    <>
      <p class="quiet">{say("orphan.how")}</p>
      <LiveView scanner={scanner} seen={() => undefined}>
        {(shutter, ready) => (
          <button type="button" class="shutter" disabled={!ready} onClick={() => shutter(shot)}>
            {say("orphan.shutter")}
          </button>
        )}
      </LiveView>
      <form class="measure" onSubmit={go}>
        <h2>{say("orphan.typed")}</h2>
        <label>
          {say("orphan.length")}
          <input inputMode="decimal" autocomplete="off" value={length} onInput={(event) => setLength(event.currentTarget.value)} />
        </label>
        <label>
          {say("orphan.diameter")}
          <input inputMode="decimal" autocomplete="off" value={diameter} onInput={(event) => setDiameter(event.currentTarget.value)} />
        </label>
        {slip && <p role="alert">{say("orphan.slip")}</p>}
        <button type="submit">{say("orphan.go")}</button>
      </form>
    </>
  );
}

function Homes({ job, looked }: Props & { readonly looked: Looked }) {
  const { act, understood, trouble } = useActs(job);
  const [done, setDone] = useState<ReadonlySet<number>>(new Set());
  const take = async (index: number, piece: Lone, offer: Offer | null) => {
    const what = pieceWords(piece);
    const name = `${say("orphan.piece")} ${new Date().toISOString()} ${index + 1}`;
    const said = offer ? say("orphan.said", { what, set: offer.set }) : say("orphan.said.none", { what });
    const undone = () => setDone(without(index));
    const drafts = foundPiece(piece, name, what, looked.how, offer?.set ?? null);
    if (await act(drafts, said, { undone })) setDone(new Set([...done, index]));
  };
  const without = (index: number) => (old: ReadonlySet<number>) => new Set([...old].filter((each) => each !== index));
  return (
    <>
      {looked.pieces.map((piece, index) => (
        <section key={index}>
          <h2>{pieceWords(piece)}</h2>
          <p class="quiet">{say("orphan.estimate")}</p>
          {piece.offers.length === 0 && <p class="headline">{say("orphan.none")}</p>}
          {piece.offers.map((offer, place) => (
            <article class="card" key={offer.job + offer.set + offer.type}>
              <p class="headline">{offer.set}</p>
              <p>
                {shareWords(piece, place, offer)} · {offer.type}
              </p>
              <ul>
                {offer.reasons.map((reason) => (
                  <li key={reason}>{reason}</li>
                ))}
              </ul>
              {offer.job === job ? (
                <button type="button" disabled={done.has(index)} onClick={() => void take(index, piece, offer)}>
                  {say("orphan.take", { set: offer.set })}
                </button>
              ) : (
                <a class="button" href={handPath({ screen: "hand", view: "orphan", job: offer.job, about: "" })}>
                  {say("orphan.elsewhere", { job: offer.job })}
                </a>
              )}
            </article>
          ))}
          <button type="button" disabled={done.has(index)} onClick={() => void take(index, piece, null)}>
            {say("orphan.keep")}
          </button>
        </section>
      ))}
      {trouble && <p role="alert">{trouble}</p>}
      <UndoBar understood={understood} />
    </>
  );
}

/** A share says something only among several. */
function shareWords({ offers }: Lone, place: number, { share }: Offer): string {
  if (offers.length === 1) return say("orphan.only");
  return say(place === 0 ? "orphan.likeliest" : "orphan.also", { share: Math.round(share * 100) });
}

function pieceWords({ kind, diameter_mm, length_mm, head_mm }: Piece): string {
  const sizes = [
    diameter_mm !== null && say("orphan.size.diameter", { mm: diameter_mm.toFixed(1) }),
    length_mm !== null && say("orphan.size.length", { mm: length_mm.toFixed(1) }),
    head_mm !== null && say("orphan.size.head", { mm: head_mm.toFixed(1) }),
  ].filter(Boolean);
  return [kind ?? say("orphan.piece"), ...sizes].join(" · ");
}
