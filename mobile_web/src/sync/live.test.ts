import { afterEach, beforeEach, expect, it, vi } from "vitest";

import { onJobChanged } from "./live";

class Source extends EventTarget {
  static readonly OPEN = 1;
  static all: Source[] = [];
  readyState = 0;
  onerror: (() => void) | null = null;
  constructor(readonly address: string) {
    super();
    Source.all.push(this);
  }
  close() {
    this.readyState = 2;
  }
  say(name: string, data: unknown = {}) {
    this.readyState = 1;
    this.dispatchEvent(new MessageEvent(name, { data: JSON.stringify(data) }));
  }
}

const page = Object.assign(new EventTarget(), { hidden: false });
const newest = () => Source.all.at(-1)!;

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("EventSource", Source);
  vi.stubGlobal("document", page);
  page.hidden = false;
  Source.all = [];
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("tells of changes, and of what changed while the stream was down; where it stands at first is no change", () => {
  const told = vi.fn();
  const stop = onJobChanged("keel 1", told);
  expect(newest().address).toBe("/api/jobs/keel%201/events");
  newest().say("now", { job: "keel 1", head: "a" });
  expect(told).toHaveBeenCalledTimes(0);
  newest().say("changed", { job: "keel 1", head: "b" });
  expect(told).toHaveBeenCalledTimes(1);
  newest().onerror?.();
  vi.advanceTimersByTime(2000);
  newest().say("now", { job: "keel 1", head: "c" });
  expect(told).toHaveBeenCalledTimes(2);
  stop();
});

it("asks now and then while there is no stream, and stops asking when there is one again", () => {
  const told = vi.fn();
  const stop = onJobChanged("keel", told);
  for (let turn = 0; turn < 60; turn++) {
    newest().onerror?.();
    vi.advanceTimersByTime(1000);
  }
  const polled = told.mock.calls.length;
  expect(polled).toBeGreaterThanOrEqual(4);
  expect(Source.all.length).toBeLessThan(20);
  vi.advanceTimersByTime(40_000);
  newest().say("beat");
  const before = told.mock.calls.length;
  vi.advanceTimersByTime(30_000);
  expect(told.mock.calls.length).toBe(before);
  stop();
});

it("takes a stream that is silent beyond its beat for dead", () => {
  const stop = onJobChanged("keel", () => undefined);
  newest().say("now", { job: "keel", head: "a" });
  vi.advanceTimersByTime(45_000);
  expect(Source.all.length).toBe(2);
  stop();
});

it("shares one stream, rests while the page is hidden, and ends with its last listener", () => {
  const [left, right] = [onJobChanged("keel", () => undefined), onJobChanged("keel", () => undefined)];
  expect(Source.all.length).toBe(1);
  page.hidden = true;
  page.dispatchEvent(new Event("visibilitychange"));
  expect(newest().readyState).toBe(2);
  page.hidden = false;
  page.dispatchEvent(new Event("visibilitychange"));
  expect(Source.all.length).toBe(2);
  left();
  expect(newest().readyState).not.toBe(2);
  right();
  expect(newest().readyState).toBe(2);
  vi.advanceTimersByTime(100_000);
  expect(Source.all.length).toBe(2);
});
