import { useState } from "preact/hooks";

import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { getDeskList, recordAsLead, type Pair } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";
import { KeyHelp } from "./key_help";
import { useKeys, usePlace } from "./keys";
import { PairView, pairKeys } from "./pair_view";
import { WHOLE } from "./view";

const MOST_ASKED = 12;

/** Photo pairs of what is back, where a mistake is likeliest first; the lead marks those that were looked at. */
export function Pairs({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.pairs")}`);
  const [loaded, again] = useLoaded(() => getDeskList(job));
  return (
    <>
      <DeskJobHead job={job} here="pairs" />
      <Waiting loaded={loaded} what={say("desk.pairs")} again={again}>
        {({ pairs }) => (pairs.length ? <Looking job={job} pairs={pairs} again={again} /> : <p class="headline">{say("pairs.none")}</p>)}
      </Waiting>
    </>
  );
}

interface Props {
  readonly job: string;
  readonly pairs: readonly Pair[];
  readonly again: () => void;
}

function Looking({ job, pairs, again }: Props) {
  const [chosen, setChosen] = useState(pairs.find((pair) => !pair.seen)?.element ?? pairs[0]?.element);
  const [view, setView] = useState(WHOLE);
  const [slider, setSlider] = useState(false);
  const [said, setSaid] = useState("");
  const at = Math.max(0, pairs.findIndex((pair) => pair.element === chosen));
  const pair = pairs[at]!;
  const { go, step } = usePlace(at, pairs.length, (place) => {
    setChosen(pairs[place]?.element);
    setView(WHOLE);
  });
  const mark = async () => {
    const { element, before, after } = pair;
    const failed = await recordAsLead(job, [
      { kind: "pair-seen", element, before: before?.photo.photo ?? null, after: after?.photo.photo ?? null },
    ]);
    setSaid(failed ?? say("pairs.marked", { element }));
    if (!failed) {
      again();
      go(at + 1);
    }
  };
  useKeys({ ...pairKeys(view, setView, () => setSlider(!slider)), j: () => step(1), k: () => step(-1), m: () => void mark() });
  return (
    <>
      <Asked pairs={pairs} />
      <p class="said-back" role="status">{said}</p>
      <div class="walk">
        <nav class="finding-list" aria-label={say("pairs.list")}>
          <ol class="plain">
            {pairs.map((each, index) => (
              <li key={each.element}>
                <button type="button" aria-current={index === at ? "true" : undefined} onClick={() => go(index)}>
                  <span class="seen-mark">{each.seen ? "■" : "□"}</span>
                  <span>
                    {each.element} <span class="quiet">{say(each.seen ? "pairs.seen.short" : "pairs.open.short")}</span>
                  </span>
                </button>
              </li>
            ))}
          </ol>
        </nav>
        <article class="card one-finding" aria-label={pair.element}>
          <h2 tabIndex={-1}>{pair.element}</h2>
          {pair.why.length > 0 && <p>{say("pairs.why", { why: pair.why.map((why) => ownWord("why", why)).join(", ") })}</p>}
          {pair.seen && <p>{say("pairs.seen", { by: pair.seen.by, when: moment(pair.seen.at) })}</p>}
          <div class="tools">
            <button type="button" onClick={() => void mark()}>
              {say("pairs.mark")} <kbd>M</kbd>
            </button>
          </div>
          <PairView {...{ pair, view, setView, slider, setSlider }} />
        </article>
      </div>
      <KeyHelp keys={[["J", "keys.next.pair"], ["K", "keys.previous.pair"], ["M", "keys.seen"], ["+ −", "keys.zoom"], ["G", "keys.place"], ["O", "keys.slider"]]} />
    </>
  );
}

function Asked({ pairs }: { readonly pairs: readonly Pair[] }) {
  const asked = pairs.slice(0, MOST_ASKED);
  const owed = pairs.filter((pair) => pair.after === null).length;
  return (
    <p>
      {say("pairs.asked", { seen: asked.filter((pair) => pair.seen).length, asked: asked.length })}{" "}
      {owed > 0 && say("pairs.owed", { n: owed })} <span class="quiet">{say("pairs.order")}</span>
    </p>
  );
}
