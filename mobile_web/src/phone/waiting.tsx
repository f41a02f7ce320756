import { useEffect, useState } from "preact/hooks";

import { keepRoom, listWaiting, roomHere, type Listed, type Room } from "../outbox/list";
import { outbox } from "../outbox/here";
import { broken, progress, sight } from "../outbox/sight";
import { useTitle } from "../parts/title";
import { LanguageChoice } from "../parts/language_choice";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { megabytes } from "../words/size";
import { say } from "../words/say";
import { waitingWords } from "../words/waiting";
import { TakeBack } from "./take_back";

const MOST_SHOWN = 50;

/** What this phone recorded and the server does not have: each thing, why it is still here, and what can be done. */
export function WaitingHere() {
  useTitle(say("phone.title"));
  const [listed, setListed] = useState<Listed | null>(null);
  const [room, setRoom] = useState<Room | null>(null);
  useEffect(() => {
    void outbox.then(({ box }) => listWaiting(box, MOST_SHOWN)).then(setListed, () => undefined);
    void roomHere().then(setRoom);
  }, [sight.value]);
  const { unreached, sending, bytes, held } = sight.value;
  const waiting = waitingWords(sight.value);
  return (
    <>
      <p class="up">
        <a href="/">{say("job.all")}</a>
      </p>
      <h1 tabIndex={-1}>{say("phone.title")}</h1>
      {broken.value && <p role="alert" class="trouble">{broken.value}</p>}
      <p class="headline">{waiting ?? say("phone.nothing")}</p>
      {waiting && <p role="status">{unreached ?? say(sending ? "phone.sending" : "phone.in.turn")}</p>}
      <GoingOver />
      {held > 0 && (
        <div class="trouble">
          <p>{say("outbox.held", { n: held })} {say("phone.held.why")}</p>
          <button type="button" onClick={() => void outbox.then((opened) => opened.readHeld())}>
            {say("phone.held.read")}
          </button>
        </div>
      )}
      {waiting && (
        <button type="button" class="main" onClick={() => void outbox.then((opened) => opened.again())}>
          {say("again")}
        </button>
      )}
      {listed && <Entries listed={listed} />}
      {listed && <Photos listed={listed} />}
      <Storage room={room} bytes={bytes} again={() => void keepRoom().then(roomHere).then(setRoom)} />
      <LanguageChoice />
    </>
  );
}

function GoingOver() {
  const going = progress.value;
  if (!going) return null;
  const said = say("phone.going", { sent: megabytes(going.sent), of: megabytes(going.of) });
  return (
    <p class="going">
      <label for="going">{said}</label>
      <progress id="going" max={going.of} value={going.sent} />
    </p>
  );
}

function Entries({ listed }: { readonly listed: Listed }) {
  if (!listed.entries.length) return null;
  return (
    <section>
      <h2>{say("phone.entries")}</h2>
      <ul class="plain">
        {listed.entries.map(({ key, entry, trouble }) => (
          <li class="card" key={key}>
            <p class="name">{entrySentence(entry)}</p>
            <p class="quiet">{`${entry.job} · ${moment(String(entry["at"] ?? ""))}`}</p>
            <p>{trouble === null ? say("phone.waits") : say("phone.not.taken", { why: trouble })}</p>
            <TakeBack
              what={say(trouble === null ? "phone.take.back.entry" : "phone.forget.entry")}
              take={async () => void (await (await outbox).takeBackEntry(key, say("phone.taken.back")))}
            />
          </li>
        ))}
      </ul>
      <More shown={listed.entries.length} all={sight.value.entries} />
    </section>
  );
}

function Photos({ listed }: { readonly listed: Listed }) {
  if (!listed.photos.length) return null;
  return (
    <section>
      <h2>{say("phone.photos")}</h2>
      <ul class="plain">
        {listed.photos.map(({ key, job, at, size, small, trouble }) => (
          <li class="card beside photo" key={key}>
            <div>
              <p class="name">{at ? moment(at) : job}</p>
              <p class="quiet">{`${job}${size ? ` · ${megabytes(size)}` : ""}`}</p>
              <p>{trouble !== null ? say("phone.not.taken", { why: trouble }) : say(small ? "phone.small.there" : "phone.waits")}</p>
              <TakeBack
                what={say("phone.take.back.photo")}
                take={async () => void (await (await outbox).takeBackPhoto(key, say("phone.taken.back")))}
              />
            </div>
            <Thumb photo={key} />
          </li>
        ))}
      </ul>
      <More shown={listed.photos.length} all={sight.value.photos} />
    </section>
  );
}

function Thumb({ photo }: { readonly photo: number }) {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let left = false;
    void outbox.then(({ box }) => box.get("bytes", photo)).then((bytes) => {
      if (bytes && !left) setAddress((made = URL.createObjectURL(new Blob([bytes]))));
    });
    return () => {
      left = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [photo]);
  return address ? <img class="small" src={address} alt={say("phone.photo.alt")} /> : null;
}

function More({ shown, all }: { readonly shown: number; readonly all: number }) {
  return all > shown ? <p>{say("phone.more", { n: all - shown })}</p> : null;
}

function Storage({ room, bytes, again }: { readonly room: Room | null; readonly bytes: number; readonly again: () => void }) {
  if (!room) return null;
  const left = room.left === null ? say("phone.room.unknown") : say("phone.room", { left: megabytes(room.left) });
  return (
    <section>
      <h2>{say("phone.storage")}</h2>
      <p>{`${say("phone.room.used", { used: megabytes(bytes) })} ${left}`}</p>
      {room.kept !== null && <p>{say(room.kept ? "phone.kept" : "phone.not.kept")}</p>}
      {room.kept === false && (
        <button type="button" onClick={again}>
          {say("phone.keep")}
        </button>
      )}
    </section>
  );
}
