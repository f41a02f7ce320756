import bag from "./de/bag.json";
import bagging from "./de/bagging.json";
import containers from "./de/containers.json";
import desk from "./de/desk.json";
import findings from "./de/findings.json";
import hand from "./de/hand.json";
import inHand from "./de/in_hand.json";
import outbox from "./de/outbox.json";
import own from "./de/own.json";
import page from "./de/page.json";
import phone from "./de/phone.json";
import photos from "./de/photos.json";
import places from "./de/places.json";
import review from "./de/review.json";
import torque from "./de/torque.json";
import who from "./de/who.json";
import work from "./de/work.json";
import workCautions from "./de/work_cautions.json";
import sentences from "./forms/de.json";

/** Every message in German, by its name: a file for each of the English ones. */
export const de: Readonly<Record<string, string>> = {
  ...bag,
  ...bagging,
  ...containers,
  ...desk,
  ...findings,
  ...hand,
  ...inHand,
  ...outbox,
  ...own,
  ...page,
  ...phone,
  ...photos,
  ...places,
  ...review,
  ...torque,
  ...who,
  ...work,
  ...workCautions,
};

const CHECK = "own.check.";

/** The server's sentences in German, by their English forms, and the names of its checks. */
export const forms: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Object.entries(own)
      .filter(([name]) => name.startsWith(CHECK))
      .map(([name, word]) => [name.slice(CHECK.length).replaceAll("-", " "), word]),
  ),
  ...sentences,
};
