import { post } from "../sync/post";
import { Outbox } from "./outbox";

/** This tab's outbox, opened once; it sends again when the network or the person comes back. */
export const outbox: Promise<Outbox> = Outbox.open(post).then((opened) => {
  const send = () => void opened.send();
  addEventListener("online", send);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") send();
  });
  send();
  return opened;
});
