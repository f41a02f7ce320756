import { JobHead } from "../parts/job_head";
import { Picture } from "../parts/photo_tile";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listPhotos, originalAddress, type Photo as Found } from "../sync/api";
import { useLive } from "../sync/loaded";
import { photoSubject, photoTime, shapeWords } from "../words/photo";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly photo: string;
}

/** One photo, large, with what is known of it and the way to its original bytes. */
export function Photo({ job, photo }: Props) {
  useTitle(say("photos.title"));
  const [loaded, again] = useLive(job, () => listPhotos(job));
  return (
    <>
      <JobHead job={job} here="photos" inside />
      <Waiting loaded={loaded} what={say("photos.title")} again={again}>
        {(photos) => {
          const found = photos.find((each) => each.photo === photo);
          return found ? <Large job={job} found={found} /> : <p>{say("photo.missing")}</p>;
        }}
      </Waiting>
    </>
  );
}

function Large({ job, found }: { readonly job: string; readonly found: Found }) {
  const { width, height, sha256, container } = found;
  return (
    <section>
      <h2 class="name">{photoSubject(found)}</h2>
      <Picture photo={found} large />
      <p>
        {shapeWords(found.shape)} · {photoTime(found)}
        {width && height && <> · {say("photo.size", { width, height })}</>}
      </p>
      {found.rejected && <p>{say("photo.rejected", { why: found.rejected })}</p>}
      <p>{found.labels.length ? say("photo.labels", { labels: found.labels.join(", ") }) : say("photo.no.labels")}</p>
      <p class="actions">
        {container && (
          <a class="button" href={pathOf({ screen: "container", job, container })}>
            {say("label.to.container", { container })}
          </a>
        )}
        {sha256 && (
          <a class="button" href={originalAddress(sha256)}>
            {say("photo.original")}
          </a>
        )}
      </p>
      {sha256 && (
        <p class="quiet">
          {say("photo.hash")} <code>{sha256}</code>
        </p>
      )}
    </section>
  );
}
