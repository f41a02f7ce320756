import { useEffect, useState } from "preact/hooks";

import { getPreview } from "../sync/pocket";
import { openShelf, type KeptPicture, type Shelf } from "./keep";
import type { Pocket } from "./shape";

const MOST_BYTES = 300_000;
const MOST_PICTURES = 250;
const EDGE_PX = 1280;

/** Fetch the small pictures of a job that are not here yet: those with pins and those of bags first. */
export async function keepPictures(shelf: Shelf, pocket: Pocket): Promise<void> {
  const here = new Set(await shelf.getAllKeys("pictures"));
  const wanted = pocket.photos.filter((photo) => photo.sha256 && !photo.rejected && !here.has(photo.sha256));
  wanted.sort((left, right) => Number(right.pins.length > 0) - Number(left.pins.length > 0) || Number(right.container !== null) - Number(left.container !== null));
  for (const { sha256 } of wanted.slice(0, MOST_PICTURES)) {
    const blob = sha256 ? await getPreview(sha256) : null;
    if (!sha256 || !blob) continue;
    try {
      await keepPicture(shelf, sha256, blob);
    } catch {
      return;
    }
  }
}

/** Keep a picture small enough: one that was just taken, or one that the server made. */
export async function keepPicture(shelf: Shelf, sha256: string, picture: Blob): Promise<void> {
  const small = picture.size > MOST_BYTES ? ((await scaled(picture)) ?? picture) : picture;
  const kept: KeptPicture = { bytes: await small.arrayBuffer(), type: small.type };
  await shelf.put("pictures", kept, sha256);
}

async function scaled(picture: Blob): Promise<Blob | null> {
  const whole = await createImageBitmap(picture);
  const share = Math.min(1, EDGE_PX / Math.max(whole.width, whole.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(whole.width * share);
  canvas.height = Math.round(whole.height * share);
  canvas.getContext("2d")?.drawImage(whole, 0, 0, canvas.width, canvas.height);
  whole.close();
  return new Promise((given) => canvas.toBlob(given, "image/jpeg", 0.75));
}

/** Give the address of a photo's small picture, from this phone if it is here, else from the server; null at first. */
export function usePicture(sha256: string | null): string | null {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    let own: string | null = null;
    let left = false;
    setAddress(null);
    if (sha256) {
      void pictureOf(sha256).then((blob) => {
        if (left) return;
        own = blob && URL.createObjectURL(blob);
        setAddress(own);
      });
    }
    return () => {
      left = true;
      if (own) URL.revokeObjectURL(own);
    };
  }, [sha256]);
  return address;
}

async function pictureOf(sha256: string): Promise<Blob | null> {
  const shelf = await openShelf();
  const kept = await shelf.get("pictures", sha256);
  shelf.close();
  if (kept) return new Blob([kept.bytes], { type: kept.type });
  return getPreview(sha256);
}
