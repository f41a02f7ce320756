import { afterEach, expect, it } from "vitest";

import { asNewtonMetres, inShopUnit, torqueRange, torqueUnit, torqueWords } from "./newton_metres";
import { language } from "./language";

afterEach(() => {
  torqueUnit.value = "N·m";
  language.value = "en";
});

it("writes N·m with four digits at most", () => {
  expect([torqueWords(47.453628), torqueWords(0.88), torqueRange([20, 25])]).toEqual(["47.45 N·m", "0.88 N·m", "20–25 N·m"]);
});

it("writes lbf·ft where the shop sets it, the N·m beside it; 1 lbf·ft is 1.355 818 N·m (NIST SP 811, B.8)", () => {
  torqueUnit.value = "lbf·ft";
  expect(torqueWords(1.355818)).toBe("1 lbf·ft (1.356 N·m)");
  expect(torqueRange([20, 25])).toBe("14.75–18.44 lbf·ft (20–25 N·m)");
  expect([inShopUnit(47.4536), asNewtonMetres(35)]).toEqual([35, 47.45]);
});

it("writes a comma where people use one", () => {
  language.value = "de";
  expect(torqueWords(47.453628)).toBe("47,45 N·m");
});
