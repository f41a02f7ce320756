import { useEffect, useRef } from "preact/hooks";

import { backOff } from "./back_off";

const POLL_MS = 10_000;
const SILENT_MS = 40_000;

/** One stream of the server's events that all listeners of an address in this tab share. */
class Stream {
  readonly #address: string;
  readonly #listeners = new Set<() => void>();
  #source: EventSource | null = null;
  #heads = new Map<string, string>();
  #fails = 0;
  #again: ReturnType<typeof setTimeout> | undefined;
  #poll: ReturnType<typeof setInterval> | undefined;
  #silent: ReturnType<typeof setTimeout> | undefined;

  constructor(address: string) {
    this.#address = address;
  }

  add(then: () => void): void {
    this.#listeners.add(then);
    if (this.#listeners.size > 1) return;
    document.addEventListener("visibilitychange", this.#shownOrHidden);
    this.#open();
  }

  /** Tell whether nobody listens any more. */
  drop(then: () => void): boolean {
    this.#listeners.delete(then);
    if (this.#listeners.size) return false;
    document.removeEventListener("visibilitychange", this.#shownOrHidden);
    this.#close();
    return true;
  }

  #open(): void {
    this.#close();
    if (document.hidden) return;
    const source = new EventSource(this.#address);
    this.#source = source;
    this.#listenFor("now", source);
    this.#listenFor("changed", source);
    source.addEventListener("beat", () => this.#heard());
    source.onerror = () => this.#lost();
    this.#heard();
    this.#fails += 1;
  }

  #listenFor(name: string, source: EventSource): void {
    source.addEventListener(name, (event: MessageEvent<string>) => {
      this.#heard();
      const { job, head } = JSON.parse(event.data) as { job: string; head: string };
      const before = this.#heads.get(job);
      this.#heads.set(job, head);
      if (name === "changed" || (before !== undefined && before !== head)) this.#tell();
    });
  }

  /** A stream that speaks is alive; one that is silent for longer than its beat is dead, whatever the socket says. */
  #heard(): void {
    clearTimeout(this.#silent);
    this.#silent = setTimeout(() => this.#lost(), SILENT_MS);
    if (this.#source?.readyState !== EventSource.OPEN) return;
    this.#fails = 0;
    clearInterval(this.#poll);
    this.#poll = undefined;
  }

  /** Connect again after a while; until then ask now and then. */
  #lost(): void {
    this.#source?.close();
    clearTimeout(this.#silent);
    this.#poll ??= setInterval(() => this.#tell(), POLL_MS);
    clearTimeout(this.#again);
    this.#again = setTimeout(() => this.#open(), backOff(this.#fails));
  }

  #close(): void {
    this.#source?.close();
    this.#source = null;
    clearTimeout(this.#again);
    clearTimeout(this.#silent);
    if (document.hidden || !this.#listeners.size) {
      clearInterval(this.#poll);
      this.#poll = undefined;
    }
  }

  #shownOrHidden = (): void => {
    if (document.hidden) this.#close();
    else this.#open();
  };

  #tell(): void {
    for (const then of [...this.#listeners]) then();
  }
}

const streams = new Map<string, Stream>();

function listen(address: string, then: () => void): () => void {
  const stream = streams.get(address) ?? new Stream(address);
  streams.set(address, stream);
  stream.add(then);
  return () => {
    if (stream.drop(then)) streams.delete(address);
  };
}

/** Call `then` whenever a job has got new entries, from whichever phone; gives the way to stop. */
export function onJobChanged(job: string, then: () => void): () => void {
  return listen(`/api/jobs/${encodeURIComponent(job)}/events`, then);
}

/** Call `then` whenever any job of the shop has got new entries; gives the way to stop. */
export function onShopChanged(then: () => void): () => void {
  return listen("/api/events", then);
}

/** Call the newest `then` while a screen is open, whenever the job (null: any job) changes. */
export function useChanges(job: string | null, then: () => void): void {
  const latest = useRef(then);
  latest.current = then;
  useEffect(() => {
    const tell = () => latest.current();
    return job === null ? onShopChanged(tell) : onJobChanged(job, tell);
  }, [job]);
}
