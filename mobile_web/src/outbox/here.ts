import { post } from "../sync/post";
import { say } from "../words/say";
import { Outbox } from "./outbox";
import { broken } from "./sight";

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
outbox.catch((error: unknown) => {
  broken.value = say("outbox.broken", { reason: error instanceof Error ? error.name : String(error) });
});
