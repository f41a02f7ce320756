import { useState } from "preact/hooks";

import { lookedAt, releaseAsked, wantingLocking, wantingLook, type Look } from "../draft/looks";
import { MeterField } from "../parts/meter_field";
import { useSteady } from "../parts/steady";
import { HandTop } from "../parts/hand_top";
import { LookAgain } from "../parts/look_again";
import { UndoBar } from "../parts/undo_bar";
import type { PocketSet } from "../pocket/shape";
import { useJob, type InHand } from "../pocket/use_job";
import type { Pocket } from "../pocket/shape";
import { pathOf } from "../route";
import { headline } from "../words/headline";
import { say, type Message } from "../words/say";

interface Props {
  readonly job: string;
}
interface Here {
  readonly hand: InHand;
  readonly pocket: Pocket;
}

/** Looks, tests and the question for release: what closes a job at the machine. */
export function Looks({ job }: Props) {
  const hand = useJob(job);
  const { here } = hand;
  return (
    <HandTop job={job} title={say("looks.title")}>
      {hand.missing && <p role="alert">{hand.missing}</p>}
      {!here && !hand.missing && <p role="status" class="waiting">{say("fetching", { what: job })}</p>}
      {here && (
        <>
          <Seconds hand={hand} pocket={here.pocket} />
          <Lockings hand={hand} pocket={here.pocket} />
          <Holds hand={hand} pocket={here.pocket} />
          <Tests hand={hand} pocket={here.pocket} />
          <Release hand={hand} pocket={here.pocket} />
        </>
      )}
      {hand.trouble && <p role="alert">{hand.trouble}</p>}
      <UndoBar understood={hand.understood} />
    </HandTop>
  );
}

const nameOf = (each: PocketSet) => each.set;

function Seconds({ hand, pocket }: Here) {
  const wanted = useSteady(wantingLook(pocket.sets), nameOf);
  if (wanted.length === 0) return null;
  return (
    <section>
      <h2>{say("looks.second")}</h2>
      {wanted.map((set) => (
        <SecondLook key={set.set} hand={hand} set={set} isLicensed={pocket.licensed.length > 0} />
      ))}
    </section>
  );
}

function SecondLook({ hand, set, isLicensed }: { readonly hand: InHand; readonly set: PocketSet; readonly isLicensed: boolean }) {
  const [open, setOpen] = useState(false);
  const [isOwn, setOwn] = useState(false);
  const done = () => {
    setOpen(false);
    setOwn(false);
  };
  const look = (how: Look) => () => {
    void hand.record(lookedAt(set.set, how), say(`looks.said.${how}`, { set: set.set }));
    done();
  };
  if (isOwn) return <LookAgain hand={hand} set={set} done={done} />;
  return (
    <article class="card">
      <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
        {say("looks.looked", { set: set.set })}
      </button>
      {open && (
        <div class="actions">
          <button type="button" onClick={look("second")}>{say("looks.how.second")}</button>
          {!isLicensed && <button type="button" onClick={() => setOwn(true)}>{say("looks.how.again")}</button>}
          <button type="button" onClick={look("bad")}>{say("looks.how.bad")}</button>
          <p class="quiet">{say(isLicensed ? "looks.again.licensed" : "looks.again.when")}</p>
        </div>
      )}
    </article>
  );
}

function Lockings({ hand, pocket }: Here) {
  const wanted = useSteady(wantingLocking(pocket.sets), nameOf);
  if (wanted.length === 0) return null;
  return (
    <section>
      <h2>{say("looks.locking")}</h2>
      {wanted.map(({ set, n, locking }) => {
        const what = say(`locking.${locking === null || locking === "other" ? "another" : locking}` as Message);
        const fitted = { kind: "locking-fitted", set, n, locking };
        return (
          <button type="button" key={set} onClick={() => void hand.record([fitted], say("looks.said.locking", { set, n, what }))}>
            {say("looks.locking.go", { set, n, what })}
          </button>
        );
      })}
    </section>
  );
}

function Holds({ hand, pocket }: Here) {
  const waiting = pocket.holds.filter((each) => each.released === null);
  if (waiting.length === 0) return null;
  return (
    <section>
      <h2>{say("looks.holds")}</h2>
      {waiting.map(({ hold, before, role, text }) => (
        <article class="card" key={hold}>
          <p>{text || say("looks.hold.before", { hold, before })}</p>
          {role && <p class="quiet">{say("looks.hold.role", { role })}</p>}
          <button type="button" onClick={() => void hand.record([{ kind: "hold-released", hold }], say("looks.said.hold", { hold }))}>
            {say("looks.hold.go", { hold })}
          </button>
        </article>
      ))}
    </section>
  );
}

function Tests({ hand, pocket }: Here) {
  if (pocket.tests.length === 0) return null;
  return (
    <section>
      <h2>{say("looks.tests")}</h2>
      {pocket.tests.map(({ test }) => (
        <article class="card" key={test}>
          <p class="title">{test}</p>
          <div class="ways">
            {([true, false] as const).map((passed) => (
              <button
                type="button"
                key={String(passed)}
                aria-label={say(passed ? "looks.test.passed.of" : "looks.test.failed.of", { test })}
                onClick={() => void hand.record([{ kind: "test-run", test, passed }], say(passed ? "looks.said.passed" : "looks.said.failed", { test }))}
              >
                {say(passed ? "looks.test.passed" : "looks.test.failed")}
              </button>
            ))}
          </div>
        </article>
      ))}
    </section>
  );
}

/** The question for release: what no record can know is asked first; the list says what stands in the way. */
function Release({ hand, pocket }: Here) {
  const [asked, setAsked] = useState(false);
  const [meter, setMeter] = useState("");
  const ask = async () => {
    if (await hand.record(releaseAsked(true, meter), say("looks.said.release"))) setAsked(true);
  };
  const counts = { stop: 0, decide: 0, note: 0 };
  for (const finding of pocket.findings) counts[finding.severity] += 1;
  return (
    <section>
      <h2>{say("looks.release")}</h2>
      <p class="headline">{headline(counts, pocket.not_checked.length)}</p>
      <p>{say("looks.release.question")}</p>
      <MeterField value={meter} typed={setMeter} />
      <button type="button" class="shutter" onClick={() => void ask()}>
        {say("looks.release.go")}
      </button>
      <a class="button" href={pathOf({ screen: "work", job: pocket.job, view: "hub", about: "" })}>
        {say("looks.release.more")}
      </a>
      {asked && (
        <a class="button" href={pathOf({ screen: "findings", job: pocket.job })}>
          {say("looks.release.list")}
        </a>
      )}
    </section>
  );
}
