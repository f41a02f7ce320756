import type { ReadCode } from "./label_code";

/** One picture to look at; `hard` takes more time for it. */
export interface Look {
  readonly picture: ImageBitmap;
  readonly hard: boolean;
  readonly turn: number;
}

/** A label in view, and the text of its symbol. */
export interface Seen extends ReadCode {
  readonly text: string;
}

/** Finds labels in pictures, beside the page's own thread. */
export class Scanner {
  #worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  #turn = 0;
  #asked = new Map<number, (seen: readonly Seen[]) => void>();

  constructor() {
    this.#worker.onmessage = (event: MessageEvent<{ turn: number; seen: readonly Seen[] }>) => {
      this.#asked.get(event.data.turn)?.(event.data.seen);
      this.#asked.delete(event.data.turn);
    };
  }

  /** Give all labels in a picture, which is used up by it. */
  look(picture: ImageBitmap, hard: boolean): Promise<readonly Seen[]> {
    const turn = this.#turn++;
    return new Promise((answer) => {
      this.#asked.set(turn, answer);
      this.#worker.postMessage({ picture, hard, turn } satisfies Look, [picture]);
    });
  }

  close(): void {
    this.#worker.terminate();
    for (const answer of this.#asked.values()) answer([]);
  }
}
