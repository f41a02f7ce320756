import { shown } from "../scan/label_code";
import type { Photo } from "../sync/api";
import { moment } from "./moment";
import { say, type Message } from "./say";

const SHAPES = ["before", "during", "tray", "inside", "after", "defect", "manual"] as const;

/** Say what a photo shows, for those who do not see it. */
export function photoWords(photo: Photo): string {
  return say("photo.of", { shape: shapeWords(photo.shape), what: photoSubject(photo) });
}

/** Name what a photo is of: its bag or tray, its element, else its kind. */
export function photoSubject(photo: Photo): string {
  return (photo.container && shown(photo.container)) ?? photo.element ?? shapeWords(photo.shape);
}

/** Say when a photo was taken: the camera's time, else the time at which it came in. */
export function photoTime(photo: Photo): string {
  if (photo.taken) return say("photo.taken", { when: moment(photo.taken) });
  if (photo.taken_local) return say("photo.taken", { when: photo.taken_local });
  return say("photo.arrived", { when: moment(photo.arrived) });
}

/** Say what kind of photo it is. */
export function shapeWords(shape: string): string {
  const known = SHAPES.find((name) => name === shape);
  const message: Message = known ? `photo.shape.${known}` : "photo.shape.unsorted";
  return say(message);
}
