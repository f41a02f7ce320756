import { useEffect, useState } from "preact/hooks";

import { overviewOf } from "../pins/places";
import { onPhone, refreshed } from "./load";
import type { Pocket, PocketPhoto } from "./shape";

/** The photo of the machine on which places are tapped, and the job that it belongs to. */
export interface Overview {
  readonly pocket: Pocket;
  readonly photo: PocketPhoto;
}

/** Find the photo of the machine in what this phone knows of a job, then in what the server says; null where none has marks. */
export function useOverview(job: string, acts: number): Overview | null {
  const [pocket, setPocket] = useState<Pocket | null>(null);
  useEffect(() => {
    let left = false;
    const show = (found: Awaited<ReturnType<typeof refreshed>> | null) => {
      if (!left && found && "pocket" in found) setPocket(found.pocket);
    };
    void onPhone(job)
      .then(show)
      .then(() => refreshed(job))
      .then(show);
    return () => {
      left = true;
    };
  }, [job, acts]);
  return pocket && overviewIn(pocket);
}

/** Give a job with its photo of the machine; null where none has marks. */
export function overviewIn(pocket: Pocket): Overview | null {
  const photo = overviewOf(pocket);
  return photo && { pocket, photo };
}
