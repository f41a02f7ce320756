import { expect, it } from "vitest";

import { headline } from "./headline";

it.each([
  [{ stop: 5, decide: 2, note: 0 }, 3, "5 things stop this, 2 need your word, 3 checks not run at this level."],
  [{ stop: 1, decide: 1, note: 1 }, 1, "1 thing stops this, 1 needs your word, 1 note, 1 check not run at this level."],
  [{ stop: 0, decide: 0, note: 0 }, 0, "Nothing on the list."],
  [{ stop: 0, decide: 0, note: 0 }, 11, "Nothing on the list, 11 checks not run at this level."],
  [{ stop: 0, decide: 0, note: 2 }, 0, "2 notes."],
])("says in one sentence what stands in the way: %j, %d not run", (counts, unchecked, words) => {
  expect(headline(counts, unchecked)).toBe(words);
});
