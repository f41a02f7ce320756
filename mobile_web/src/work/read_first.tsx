import { useEffect, useState } from "preact/hooks";

import { shelf } from "../pocket/load";
import { focused } from "../parts/focused";
import { say, type Message } from "../words/say";

interface Props {
  readonly job: string;
  readonly messages: readonly Message[];
  /** What waits for the reading; it shows at once when everything was read in this job before. */
  readonly children: preact.ComponentChildren;
}

const READ_KEY = (job: string) => `cautions read in ${job}`;

/** Cautions at the moment they matter: the first time in a job one tap says "read", afterwards they are a line. */
export function ReadFirst({ job, messages, children }: Props) {
  const [read, setRead] = useState<readonly string[] | null>(null);
  useEffect(() => {
    void shelf.then((opened) => opened.get("marks", READ_KEY(job))).then((kept) => setRead(Array.isArray(kept) ? (kept as string[]) : []));
  }, [job]);
  if (read === null) return null;
  const fresh = messages.filter((message) => !read.includes(message));
  const mark = () => {
    const all = [...read, ...fresh];
    setRead(all);
    void shelf.then((opened) => opened.put("marks", all, READ_KEY(job)));
  };
  if (!fresh.length) {
    return (
      <>
        {children}
        {messages.map((message) => (
          <p key={message} class="quiet">{say(message)}</p>
        ))}
      </>
    );
  }
  return (
    <section class="read" aria-labelledby="read-title">
      <h2 id="read-title" tabIndex={-1} ref={focused}>{say("read.title")}</h2>
      {fresh.map((message) => (
        <p key={message} class="label">{say(message)}</p>
      ))}
      <div class="actions">
        <button type="button" class="shutter" onClick={mark}>{say("read.go")}</button>
      </div>
    </section>
  );
}
