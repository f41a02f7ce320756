import { useState } from "preact/hooks";

import { pathOf } from "../route";
import { previewAddress, type Photo } from "../sync/api";
import { photoSubject, photoWords } from "../words/photo";
import { say } from "../words/say";

interface Props {
  readonly job: string;
  readonly photo: Photo;
}

/** A photo as a small picture that opens it, with what it shows and when in words under it. */
export function PhotoTile({ job, photo }: Props) {
  return (
    <a class="tile" href={pathOf({ screen: "photo", job, photo: photo.photo })}>
      <Picture photo={photo} />
      <span class="under">{photoSubject(photo)}</span>
    </a>
  );
}

/** The upright preview of a photo, or a sentence where its bytes are not here. */
export function Picture({ photo, large = false }: { readonly photo: Photo; readonly large?: boolean }) {
  const [lost, setLost] = useState(photo.sha256 === null);
  if (lost || photo.sha256 === null) return <span class="no-picture">{say("photo.preview.missing")}</span>;
  return (
    <img
      class={large ? "large" : "small"}
      src={previewAddress(photo.sha256)}
      alt={photoWords(photo)}
      loading={large ? "eager" : "lazy"}
      decoding="async"
      onError={() => setLost(true)}
    />
  );
}
