import { JobHead } from "../parts/job_head";
import { PhotoTile } from "../parts/photo_tile";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { listPhotos } from "../sync/api";
import { useLive } from "../sync/loaded";
import { say } from "../words/say";

/** All photos of one job, newest first; small pictures come as they scroll into view. */
export function Photos({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("photos.title")}`);
  const [loaded, again] = useLive(job, () => listPhotos(job));
  return (
    <>
      <JobHead job={job} here="photos" />
      <Waiting loaded={loaded} what={say("photos.title")} again={again}>
        {(photos) =>
          photos.length ? (
            <div class="grid">
              {photos.map((photo) => (
                <PhotoTile key={photo.photo} job={job} photo={photo} />
              ))}
            </div>
          ) : (
            <p class="headline">{say("photos.none")}</p>
          )
        }
      </Waiting>
    </>
  );
}
