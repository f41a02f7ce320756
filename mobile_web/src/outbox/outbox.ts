import { holdPhone, keep, openBox, phoneOf, settlePhone, type Act, type Belonging, type Box, type Entry, type Unnumbered } from "./box";
import { clockText } from "./clock";
import { countWaiting, forgetHeld, forgive, letGo, sendAll, type Post } from "./send";
import { sha256 } from "./sha256";
import { phone, sight } from "./sight";
import { keepingTrouble } from "../words/trouble";
import { uuid7 } from "./uuid7";

/** What is to be recorded: the kind and its fields; who, where and when are added here. */
export interface Draft {
  readonly kind: string;
  readonly [field: string]: unknown;
}

/** A picture's bytes as the camera gave them. */
export interface Picture {
  readonly bytes: ArrayBuffer;
  readonly type: string;
}

/** What came of recording: the entries as they are kept here, or one sentence that says why none is. */
export type Recorded = { readonly here: readonly Entry[] } | { readonly trouble: string };

const LONGEST_PAUSE_MS = 60_000;

/** One browser tab's end of the outbox; tabs share what waits and send it one at a time. */
export class Outbox {
  #box: Box;
  #post: Post;
  #others: BroadcastChannel;
  #pause = 2000;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #running: Promise<void> | null = null;
  #more = false;
  #closed = false;

  private constructor(box: Box, post: Post) {
    this.#box = box;
    this.#post = post;
    this.#others = new BroadcastChannel(`outbox of ${box.name}`);
    this.#others.onmessage = () => void this.#look();
  }

  /** Open it and begin to send what an earlier load of the page left. */
  static async open(post: Post, name?: string): Promise<Outbox> {
    const outbox = new Outbox(await openBox(name), post);
    phone.value = await phoneOf(outbox.#box);
    await outbox.#look();
    return outbox;
  }

  get box(): Box {
    return this.#box;
  }

  /** Put down who holds this phone. */
  async hold(by: string): Promise<void> {
    phone.value = await holdPhone(this.#box, by);
  }

  /** Put down what the server says of this phone. */
  async belongTo(belonging: Belonging): Promise<void> {
    phone.value = await settlePhone(this.#box, belonging);
    this.#others.postMessage("changed");
  }

  /** Keep one act on this phone, whole or not at all; sending comes after, and nothing waits for it. */
  async record(job: string, drafts: readonly Draft[], photo?: Picture): Promise<Recorded> {
    const by = phone.value?.by;
    if (!by) return { trouble: "nobody" };
    const at = clockText(new Date());
    const entries = drafts.map((draft): Unnumbered => ({ ...draft, id: uuid7(), job, at, by }));
    try {
      const here = await keep(this.#box, { entries, photo: photo ? await waiting(photo, { job, by, at }) : null });
      await this.#look();
      void this.send();
      return { here };
    } catch (error) {
      return { trouble: keepingTrouble(error instanceof Error ? error.name : String(error)) };
    }
  }

  /** Send what waits; of several tabs one does it. */
  send(): Promise<void> {
    clearTimeout(this.#timer);
    this.#more = true;
    this.#running ??= this.#sendWhileMore().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  /** Try again what was refused. */
  async again(): Promise<void> {
    await forgive(this.#box);
    await this.send();
  }

  /** Take an entry back that the server has not got: a refused one is forgotten, any other is voided in its turn. */
  async takeBackEntry(key: number, reason: string): Promise<Recorded> {
    const found = await this.#box.get("entries", key);
    if (!found) return { here: [] };
    if (found.trouble === null) return this.record(found.entry.job, [{ kind: "entry-voided", entry: found.entry.id, reason }]);
    await this.#box.delete("entries", key);
    await this.#changed();
    return { here: [] };
  }

  /** Take a photo back before its original went over: the record says that it was set aside, its bytes go. */
  async takeBackPhoto(key: number, why: string): Promise<Recorded> {
    const found = await this.#box.get("photos", key);
    if (!found) return { here: [] };
    const said = await this.record(found.job, [{ kind: "photo-rejected", photo: found.sha256, why }]);
    if ("here" in said) await letGo(this.#box, key);
    await this.#changed();
    return said;
  }

  /** Somebody read that entries are held for the lead. */
  async readHeld(): Promise<void> {
    await forgetHeld(this.#box);
    await this.#changed();
  }

  async #changed(): Promise<void> {
    await this.#look();
    this.#others.postMessage("changed");
  }

  /** Let go of what is open; what waits stays on the phone. */
  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#others.close();
    this.#box.close();
  }

  async #sendWhileMore(): Promise<void> {
    while (this.#more) {
      this.#more = false;
      await this.#sendAlone();
    }
  }

  async #sendAlone(): Promise<void> {
    const work = () => sendAll(this.#box, this.#post, () => void this.#look());
    sight.value = { ...sight.value, sending: true };
    const locks = (globalThis.navigator as Partial<Navigator> | undefined)?.locks;
    const unreached = await (locks ? locks.request(`outbox of ${this.#box.name}`, work) : work());
    sight.value = { ...(await countWaiting(this.#box)), unreached, sending: false };
    this.#others.postMessage("changed");
    this.#pause = unreached === null ? 2000 : Math.min(this.#pause * 2, LONGEST_PAUSE_MS);
    if (unreached !== null) this.#timer = setTimeout(() => void this.send(), this.#pause);
  }

  async #look(): Promise<void> {
    phone.value = await phoneOf(this.#box);
    if (this.#closed) return;
    sight.value = { ...sight.value, ...(await countWaiting(this.#box)) };
  }
}

/** Say what waits of a photo beside its bytes. */
async function waiting({ bytes, type }: Picture, about: { job: string; by: string; at: string }): Promise<NonNullable<Act["photo"]>> {
  return { about: { ...about, sha256: await sha256(bytes), type, trouble: null, size: bytes.byteLength }, bytes };
}
