import { useEffect, useMemo, useState } from "preact/hooks";

import { byPlace, photosBy, type By } from "../draft/search";
import { ContainerCard } from "../parts/container_card";
import { HandTop } from "../parts/hand_top";
import { LiveView } from "../parts/live_view";
import { OldNews } from "../parts/old_news";
import { PhotoTile } from "../parts/photo_tile";
import { Waiting } from "../parts/waiting";
import { goTo } from "../place";
import { shown } from "../scan/label_code";
import { Scanner, type Seen } from "../scan/scanner";
import { getLabel, listContainers, listPhotos, type Container, type Photo } from "../sync/api";
import { kept } from "../sync/hand";
import { useLoaded } from "../sync/loaded";
import { typedCode } from "../words/slip";
import { say } from "../words/say";

interface Props {
  readonly job: string;
}
interface Things {
  readonly containers: readonly Container[];
  readonly photos: readonly Photo[];
}

/** Find a bag or tray by scan, by its code or by where it lies; a photo by step, label or date. */
export function Find({ job }: Props) {
  const [loaded, again] = useLoaded(() => kept<Things>(`things of ${job}`, both(job)));
  return (
    <HandTop job={job} title={say("find.title")}>
      <Waiting loaded={loaded} what={say("find.title")} again={again}>
        {({ here, old }) => (
          <>
            <OldNews job={job} old={old} />
            <Finding job={job} things={here} />
          </>
        )}
      </Waiting>
    </HandTop>
  );
}

async function both(job: string) {
  const [containers, photos] = await Promise.all([listContainers(job), listPhotos(job)]);
  if ("trouble" in containers) return containers;
  if ("trouble" in photos) return photos;
  return { here: { containers: containers.here, photos: photos.here } };
}

function Finding({ job, things }: Props & { readonly things: Things }) {
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const [said, setSaid] = useState<string | null>(null);
  const [text, setText] = useState("");
  const open = async (code: string) => {
    const here = things.containers.find(({ container, label }) => plain(container) === code || plain(label ?? "") === code);
    if (here) return goTo({ screen: "container", job, container: here.container });
    const label = await getLabel(code);
    if ("trouble" in label) return setSaid(say("find.not.here", { code }));
    const elsewhere = label.here;
    if (elsewhere.job !== null && elsewhere.container !== null) {
      return goTo({ screen: "container", job: elsewhere.job, container: elsewhere.container });
    }
    return setSaid(elsewhere.sentence);
  };
  const seen = (labels: readonly Seen[]) => {
    const [label] = labels;
    if (label && labels.length === 1) void open(label.code);
    if (labels.length > 1) setSaid(say("find.several", { n: labels.length }));
  };
  const typed = (event: Event) => {
    event.preventDefault();
    const read = typedCode(text);
    if ("slip" in read) setSaid(read.slip);
    else void open(read.code);
  };
  return (
    <>
      <LiveView scanner={scanner} seen={seen}>
        {() => (
          <p class="in-view" role="status">
            {said ?? say("find.scan")}
          </p>
        )}
      </LiveView>
      <form class="measure" onSubmit={typed}>
        <label>
          {say("find.typed")}
          <input autocapitalize="characters" autocomplete="off" value={text} onInput={(event) => setText(event.currentTarget.value)} />
        </label>
        <button type="submit">{say("find.go")}</button>
      </form>
      <Places job={job} containers={things.containers} />
      <PhotosBy job={job} photos={things.photos} />
    </>
  );
}

function plain(code: string): string {
  return code.replaceAll("-", "").toUpperCase();
}

function Places({ job, containers }: Props & { readonly containers: readonly Container[] }) {
  return (
    <section>
      <h2>{say("find.places")}</h2>
      {containers.length === 0 && <p>{say("containers.none")}</p>}
      {byPlace(containers, say("container.place.unknown")).map(([place, here]) => (
        <details key={place}>
          <summary>
            {place} · {say("find.bags", { n: here.length })}
          </summary>
          {here.map((container) => (
            <ContainerCard key={container.container} job={job} container={container} />
          ))}
        </details>
      ))}
    </section>
  );
}

const WAYS: readonly By[] = ["step", "label", "date"];

function PhotosBy({ job, photos }: Props & { readonly photos: readonly Photo[] }) {
  const [by, setBy] = useState<By>("step");
  return (
    <section>
      <h2>{say("find.photos")}</h2>
      <div class="ways" role="group" aria-label={say("find.photos")}>
        {WAYS.map((way) => (
          <button type="button" key={way} aria-pressed={way === by} onClick={() => setBy(way)}>
            {say(`find.by.${way}`)}
          </button>
        ))}
      </div>
      {photos.length === 0 && <p>{say("photos.none")}</p>}
      {photosBy(by, photos, say(`find.without.${by}`)).map(([name, here]) => (
        <details key={name}>
          <summary>
            {by === "label" ? shown(name) : name} · {say("find.count", { n: here.length })}
          </summary>
          <div class="grid">
            {here.map((photo) => (
              <PhotoTile key={photo.photo} job={job} photo={photo} />
            ))}
          </div>
        </details>
      ))}
    </section>
  );
}
