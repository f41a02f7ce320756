import { useEffect, useRef, useState } from "preact/hooks";

import { pathOf } from "../route";
import { previewAddress, smallAddress, type Photo } from "../sync/api";
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

interface PictureProps {
  readonly photo: Photo;
  readonly large?: boolean;
  /** One of many on a wide screen: drawn from the smallest picture, which a phone's pocket does not hold. */
  readonly ofMany?: boolean;
}

/** The upright preview of a photo, or a sentence where its bytes are not here. */
export function Picture({ photo, large = false, ofMany = false }: PictureProps) {
  const [lost, setLost] = useState(photo.sha256 === null);
  const image = useUnasked();
  if (lost || photo.sha256 === null) return <span class="no-picture">{say("photo.preview.missing")}</span>;
  return (
    <img
      ref={image}
      class={large ? "large" : "small"}
      src={(ofMany ? smallAddress : previewAddress)(photo.sha256)}
      alt={photoWords(photo)}
      loading={large ? "eager" : "lazy"}
      decoding="async"
      onError={() => setLost(true)}
    />
  );
}

/** Take back what a picture asked for when it goes out of the page: else all that one scrolled past is fetched first. */
export function useUnasked() {
  const image = useRef<HTMLImageElement>(null);
  useEffect(() => {
    const own = image.current;
    return () => own?.removeAttribute("src");
  }, []);
  return image;
}
