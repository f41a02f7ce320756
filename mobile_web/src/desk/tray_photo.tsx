import { Picture } from "../parts/photo_tile";
import { pathOf } from "../route";
import type { Photo } from "../sync/api";
import { photoTime } from "../words/photo";

/** The last photo of a tray; it opens the photo's own page. */
export function TrayPhoto({ job, photo }: { readonly job: string; readonly photo: Photo }) {
  return (
    <figure class="tray-photo">
      <a href={pathOf({ screen: "photo", job, photo: photo.photo })}>
        <Picture photo={photo} />
      </a>
      <figcaption class="quiet">{photoTime(photo)}</figcaption>
    </figure>
  );
}
