import { Picture } from "../parts/photo_tile";
import { pathOf } from "../route";
import type { Tray } from "../sync/desk";
import { photoTime } from "../words/photo";
import { say } from "../words/say";

const SAME_LOOK_MS = 5 * 60_000;

/** The last photo of a tray with the outline of each part that was seen in it, a ring where none was kept; it opens the photo's own page. */
export function TrayPhoto({ job, tray }: { readonly job: string; readonly tray: Tray }) {
  const { photo, marks } = tray;
  if (!photo) return <p class="no-picture">{say("container.no.photo")}</p>;
  const ratio = (photo.width ?? 4) / (photo.height ?? 3);
  return (
    <figure class="tray-photo">
      <a href={pathOf({ screen: "photo", job, photo: photo.photo })} style={{ aspectRatio: String(ratio) }}>
        <Picture photo={photo} ofMany />
        <svg viewBox="0 0 100 100" preserveAspectRatio="none" class="pins" aria-hidden="true">
          {marks.map((mark) =>
            mark.outline?.length ? (
              <polygon key={`${mark.x} ${mark.y}`} class={mark.by} points={corners(mark.outline)} />
            ) : (
              <ellipse key={`${mark.x} ${mark.y}`} class={mark.by} cx={mark.x * 100} cy={mark.y * 100} rx={4} ry={4 * ratio} />
            ),
          )}
        </svg>
      </a>
      <figcaption class="quiet">
        {marks.length > 0 && <>{marksWords(marks)} · </>}
        {photoTime(photo)}
        {isOlder(tray) && <strong> · {say("tray.photo.older")}</strong>}
      </figcaption>
    </figure>
  );
}

/** Whether the last photo is from well before somebody looked the tray empty, so that it shows what lay in it then. */
function isOlder({ photo, looked_empty }: Tray): boolean {
  const taken = photo && (photo.taken ?? photo.arrived);
  return Boolean(taken && looked_empty) && Date.parse(looked_empty!) - Date.parse(taken!) > SAME_LOOK_MS;
}

const corners = (outline: readonly (readonly [number, number])[]) => outline.map(([x, y]) => `${x * 100},${y * 100}`).join(" ");

function marksWords(marks: Tray["marks"]): string {
  const of = (by: Tray["marks"][number]["by"]) => marks.filter((mark) => mark.by === by).length;
  const parts = [
    say("tray.seen", { n: of("reader") }),
    of("person") ? say("tray.added", { n: of("person") }) : "",
    of("struck") ? say("tray.struck", { n: of("struck") }) : "",
  ];
  return parts.filter(Boolean).join(", ");
}
