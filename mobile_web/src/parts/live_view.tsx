import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

import { closeCamera, openCamera, shoot, shotFrom, type Camera, type Shot } from "../camera/camera";
import type { Scanner, Seen } from "../scan/scanner";
import { watch } from "../scan/watch";
import { say } from "../words/say";

interface Props {
  /** Without one, nothing is looked for in the picture. */
  readonly scanner: Scanner | null;
  readonly seen: (seen: readonly Seen[]) => void;
  /** What is below the picture; it gets the way to take one. */
  /** Laid over the live picture: what it should look like. */
  readonly over?: ComponentChildren;
  readonly children: (take: (then: (shot: Shot) => void) => void, ready: boolean) => ComponentChildren;
}

/** The live picture, in which labels are read without a tap; without a camera the phone's own program takes the photo. */
export function LiveView({ scanner, seen, over, children }: Props) {
  const [camera, setCamera] = useState<Camera | null>(null);
  const [live, setLive] = useState(false);
  const [unreadable, setUnreadable] = useState(false);
  const video = useRef<HTMLVideoElement>(null);
  const file = useRef<HTMLInputElement>(null);
  const latest = useRef(seen);
  latest.current = seen;
  const then = useRef<((shot: Shot) => void) | null>(null);
  useEffect(() => holdCamera(setCamera), []);
  useEffect(() => {
    if (!video.current || !camera || !("stream" in camera)) return undefined;
    video.current.srcObject = camera.stream;
    return scanner ? watch(video.current, scanner, (labels) => latest.current(labels)) : undefined;
  }, [camera]);
  const take = (next: (shot: Shot) => void) => {
    then.current = next;
    if (video.current && live) void shoot(video.current).then((shot) => shot && next(shot));
    else file.current?.click();
  };
  const chosen = async () => {
    const [picked] = file.current?.files ?? [];
    const shot = picked ? await shotFrom(picked) : null;
    if (file.current) file.current.value = "";
    setUnreadable(picked !== undefined && shot === null);
    if (shot) then.current?.(shot);
  };
  const none = camera && "none" in camera ? camera.none : null;
  return (
    <>
      {!camera && <div class="live" />}
      {camera && "stream" in camera && (
        <div class="live-frame">
          <video class="live" ref={video} playsInline muted autoPlay onPlaying={() => setLive(true)} aria-label={say("camera.live")} />
          {over}
        </div>
      )}
      {none && <p class="no-camera">{say(`camera.${none}`)}</p>}
      {unreadable && <p role="alert">{say("camera.unreadable")}</p>}
      <input ref={file} type="file" accept="image/*" capture="environment" hidden onChange={() => void chosen()} />
      {children(take, live || none !== null)}
    </>
  );
}

function holdCamera(given: (camera: Camera) => void): () => void {
  let left = false;
  let opened: Camera | null = null;
  void openCamera().then((camera) => {
    if (left) closeCamera(camera);
    else given((opened = camera));
  });
  return () => {
    left = true;
    if (opened) closeCamera(opened);
  };
}
