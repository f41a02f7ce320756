import type { ComponentChildren } from "preact";

import type { SheetSection } from "../sync/hand";
import { served } from "../words/served";
import { PhotoTile } from "./photo_tile";

interface Props {
  readonly job: string;
  readonly section: SheetSection | undefined;
  readonly children?: (subject: string) => ComponentChildren;
}

/** One section of the handover sheet: its lines with their photos, or that it has none. */
export function SaidLines({ job, section, children }: Props) {
  if (!section) return null;
  return (
    <section>
      <h2>{served(section.title)}</h2>
      {section.lines.length === 0 && <p>{served(section.nothing)}</p>}
      <ul class="plain lines">
        {section.lines.map((line) => (
          <li key={line.subject + line.text}>
            <span>
              {served(line.text, line.forms)}
            </span>
            {line.photos.length > 0 && (
              <span class="strip">
                {line.photos.map((photo) => (
                  <PhotoTile key={photo.photo} job={job} photo={photo} />
                ))}
              </span>
            )}
            {children?.(line.subject)}
          </li>
        ))}
      </ul>
    </section>
  );
}
