import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

import { turnOf } from "./turn";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A browser whose waiting worker hears only the asking of that number; 0 is none. */
function browser(hears: number) {
  let taken = () => undefined as void;
  let n = 0;
  const asked = vi.fn((_: string): void => {
    n += 1;
    if (n === hears) takeOver();
  });
  const registered: { waiting: { postMessage(message: string): void } | null; installing: null } = { waiting: { postMessage: asked }, installing: null };
  function takeOver(): void {
    registered.waiting = null;
    taken();
  }
  const workers = { addEventListener: (_: string, then: () => void) => void (taken = then) };
  const loadAnew = vi.fn();
  return { turn: turnOf(workers as never, registered, loadAnew), loadAnew, asked, takeOver, claim: () => taken(), registered };
}

describe("the turn of a newer page", () => {
  it("comes with the first asking where that is heard, and no other follows", () => {
    const { turn, loadAnew, asked } = browser(1);
    turn(() => true);
    vi.advanceTimersByTime(60_000);
    expect([asked.mock.calls, loadAnew.mock.calls.length]).toEqual([[["take over"]], 1]);
  });
  it("is asked for again while the phone lies away, until it is heard", () => {
    const { turn, loadAnew, asked } = browser(3);
    turn(() => true);
    vi.advanceTimersByTime(60_000);
    expect([asked.mock.calls.length, loadAnew.mock.calls.length]).toEqual([3, 1]);
  });
  it("is not asked for again once somebody holds the phone", () => {
    let away = true;
    const { turn, loadAnew, asked } = browser(0);
    turn(() => away);
    vi.advanceTimersByTime(3_000);
    away = false;
    vi.advanceTimersByTime(60_000);
    expect([asked.mock.calls.length, loadAnew.mock.calls.length]).toEqual([2, 0]);
  });
  it("is asked for again after something that lasted a moment on a phone that lies away", () => {
    let begun = false;
    const { turn, loadAnew, asked } = browser(2);
    turn(() => !begun, () => true);
    begun = true;
    vi.advanceTimersByTime(5_000);
    expect([asked.mock.calls.length, loadAnew.mock.calls.length]).toEqual([1, 0]);
    begun = false;
    vi.advanceTimersByTime(60_000);
    expect([asked.mock.calls.length, loadAnew.mock.calls.length]).toEqual([2, 1]);
  });
  it("takes nothing away that was begun before it came, and comes at the next quiet moment", () => {
    let away = true;
    const { turn, loadAnew, takeOver } = browser(0);
    turn(() => away);
    away = false;
    takeOver();
    expect(loadAnew).not.toHaveBeenCalled();
    away = true;
    turn(() => away);
    expect(loadAnew).toHaveBeenCalledOnce();
  });
  it("still asks the worker that waits when the first one of all took the page into its care meanwhile", () => {
    const { turn, loadAnew, asked, claim } = browser(0);
    claim();
    turn(() => true);
    expect([asked.mock.calls.length, loadAnew.mock.calls.length]).toEqual([1, 0]);
  });
  it("asks the worker that waits now, not the one that waited first", () => {
    const { turn, loadAnew, registered, takeOver } = browser(0);
    turn(() => true);
    const newer = { postMessage: vi.fn(takeOver) };
    registered.waiting = newer;
    vi.advanceTimersByTime(2_000);
    expect([newer.postMessage.mock.calls.length, loadAnew.mock.calls.length]).toEqual([1, 1]);
  });
  it("loads nothing anew because another window was given its turn, until it is quiet here too", () => {
    const { turn, loadAnew, takeOver } = browser(0);
    takeOver();
    expect(loadAnew).not.toHaveBeenCalled();
    turn(() => true);
    expect(loadAnew).toHaveBeenCalledOnce();
  });
});
