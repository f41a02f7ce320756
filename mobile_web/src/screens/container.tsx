import { Cautions } from "../parts/cautions";
import { JobHead } from "../parts/job_head";
import { PhotoTile } from "../parts/photo_tile";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { shown } from "../scan/label_code";
import { listContainers, type Container as Found } from "../sync/api";
import { useLive } from "../sync/loaded";
import { bornBy, countWords, piecesWords } from "../words/container";
import { moment } from "../words/moment";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly container: string;
}

/** One bag or tray: what lies in it, where it lies, its photos; a scanned label lands here. */
export function Container({ job, container }: Props) {
  useTitle(container);
  const [loaded, again] = useLive(job, () => listContainers(job));
  return (
    <>
      <JobHead job={job} here="containers" inside />
      <h2 class="name">{shown(container)}</h2>
      <Waiting loaded={loaded} what={container} again={again}>
        {(containers) => {
          const found = containers.find((each) => each.container === container);
          return found ? <Inside job={job} found={found} /> : <p>{say("container.missing")}</p>;
        }}
      </Waiting>
    </>
  );
}

function Inside({ job, found }: { readonly job: string; readonly found: Found }) {
  return (
    <>
      <p class="quiet">
        {bornBy(found)} ·{" "}
        {found.place ? say("container.place", { place: found.place }) : say("container.place.unknown")}
      </p>
      <section>
        <h3>{say("container.holds")}</h3>
        {found.contents.length === 0 && <p class="headline">{say("container.empty")}</p>}
        <ul class="plain big">
          {found.contents.map((pieces) => (
            <li key={`${pieces.set}/${pieces.type}/${pieces.new}`}>{piecesWords(pieces)}</li>
          ))}
        </ul>
        {found.looked_empty && <p>{say("container.looked", { when: moment(found.looked_empty) })}.</p>}
        {found.counted && <p>{countWords(found.counted)}.</p>}
        {found.counted && <Cautions messages={["caution.count"]} />}
      </section>
      <section>
        <h3>{say("container.photos")}</h3>
        {found.photos.length === 0 && <p>{say("container.no.photo")}</p>}
        <div class="grid">
          {found.photos.map((photo) => (
            <PhotoTile key={photo.photo} job={job} photo={photo} />
          ))}
        </div>
      </section>
    </>
  );
}
