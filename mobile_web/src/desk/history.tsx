import { useRef, useState } from "preact/hooks";

import { Picture, useUnasked } from "../parts/photo_tile";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listNewest, listPhotos, smallAddress, type Line, type Lines, type Photo } from "../sync/api";
import { listEntriesFrom } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { entrySentence } from "../words/entry";
import { moment } from "../words/moment";
import { photoSubject, photoTime } from "../words/photo";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";
import { Windowed } from "./windowed";

const PAGE = 500;
const AGAIN_MS = 2000;
const ROW_PX = 92;
const PHOTO_ROW_PX = 212;
const PHOTO_PX = 216;

/** The time line of a job, newest first, each entry with its photos; or its photos alone. */
export function History({ job, about }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.history")}`);
  const onlyPhotos = about === "photos";
  const tab = (to: string, word: "history.entries" | "history.photos", here: boolean) => (
    <a class="button" href={pathOf({ screen: "review", view: "history", job, about: to })} aria-current={here ? "page" : undefined}>
      {say(word)}
    </a>
  );
  return (
    <>
      <DeskJobHead job={job} here="history" />
      <div class="tools">
        {tab("", "history.entries", !onlyPhotos)}
        {tab("photos", "history.photos", onlyPhotos)}
      </div>
      {onlyPhotos ? <PhotoWall job={job} /> : <Entries job={job} />}
    </>
  );
}

function Entries({ job }: { readonly job: string }) {
  const [loaded, again] = useLoaded(() => listNewest(job));
  return (
    <Waiting loaded={loaded} what={say("desk.history")} again={again}>
      {(first) => <TimeLine job={job} first={first} />}
    </Waiting>
  );
}

/** Pages of the journal come as one scrolls to them, each asked for once; one that did not come is asked for again. */
function TimeLine({ job, first }: { readonly job: string; readonly first: Lines }) {
  const [pages, setPages] = useState<ReadonlyMap<number, readonly Line[]>>(new Map([[0, first.lines]]));
  const asked = useRef(new Set([0]));
  const fetchPage = async (page: number) => {
    asked.current.add(page);
    const answer = await listEntriesFrom(job, first.total - page * PAGE + 1);
    if ("here" in answer) setPages((old) => new Map([...old, [page, answer.here.lines]]));
    else setTimeout(() => asked.current.delete(page), AGAIN_MS);
  };
  const row = (index: number) => {
    const page = Math.floor(index / PAGE);
    const line = pages.get(page)?.[index % PAGE];
    if (!line && !asked.current.has(page)) void fetchPage(page);
    return line ? <Entry job={job} line={line} /> : <p class="quiet">…</p>;
  };
  return (
    <>
      <p class="quiet">{say("history.more", { n: first.total })}</p>
      <Windowed count={first.total} height={ROW_PX} label={say("desk.history")} row={row} />
    </>
  );
}

function Entry({ job, line }: { readonly job: string; readonly line: Line }) {
  const { by, at, device, note } = line.entry;
  return (
    <div class="moment">
      <time dateTime={String(at)}>{moment(String(at))}</time>
      <span>
        <strong class="cut">{entrySentence(line.entry)}</strong>
        {typeof note === "string" && note && <span class="cut">“{note}”</span>}
        <span class="quiet cut">
          {String(by)} · {say("entry.on", { device: String(device) })} · {say("entry.number", { position: line.position })}
        </span>
      </span>
      <span class="thumbs">
        {photosOf(line).slice(0, 4).map((sha256) => (
          <a key={sha256} href={pathOf({ screen: "photo", job, photo: sha256 })}>
            <Thumb sha256={sha256} what={entrySentence(line.entry)} />
          </a>
        ))}
      </span>
    </div>
  );
}

function Thumb({ sha256, what }: { readonly sha256: string; readonly what: string }) {
  return <img ref={useUnasked()} src={smallAddress(sha256)} alt={say("history.photo", { what })} loading="lazy" decoding="async" />;
}

function photosOf({ entry }: Line): string[] {
  const named = [entry["sha256"], ...(Array.isArray(entry["photos"]) ? entry["photos"] : [])];
  return [...new Set(named.filter((name): name is string => typeof name === "string" && /^[0-9a-f]{64}$/.test(name)))];
}

function PhotoWall({ job }: { readonly job: string }) {
  const [loaded, again] = useLoaded(() => listPhotos(job));
  return (
    <Waiting loaded={loaded} what={say("photos.title")} again={again}>
      {(photos) => (photos.length ? <Wall job={job} photos={photos} /> : <p class="headline">{say("photos.none")}</p>)}
    </Waiting>
  );
}

function Wall({ job, photos }: { readonly job: string; readonly photos: readonly Photo[] }) {
  const across = Math.max(1, Math.floor((Math.min(innerWidth, 1860) - 40) / PHOTO_PX));
  return (
    <>
      <p class="quiet">{say("history.photos.all", { n: photos.length })}</p>
      <Windowed
        count={Math.ceil(photos.length / across)}
        height={PHOTO_ROW_PX}
        label={say("photos.title")}
        row={(row) => (
          <div class="wall-row">
            {photos.slice(row * across, (row + 1) * across).map((photo) => (
              <a key={photo.photo} class="wall-photo" href={pathOf({ screen: "photo", job, photo: photo.photo })}>
                <Picture photo={photo} ofMany />
                <span class="cut">{photoSubject(photo)}</span>
                <span class="quiet cut">{photoTime(photo)}</span>
              </a>
            ))}
          </div>
        )}
      />
    </>
  );
}
