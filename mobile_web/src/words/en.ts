import bag from "./en/bag.json";
import containers from "./en/containers.json";
import findings from "./en/findings.json";
import inHand from "./en/in_hand.json";
import outbox from "./en/outbox.json";
import page from "./en/page.json";
import photos from "./en/photos.json";

/** Every message in English, by its name; each area of the page has a file of its own. */
export const en = { ...bag, ...containers, ...findings, ...inHand, ...outbox, ...page, ...photos };
