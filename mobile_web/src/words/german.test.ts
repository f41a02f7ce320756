import { afterEach, describe, expect, it } from "vitest";

import { de } from "./de";
import { deviceLanguage, language } from "./language";
import { number, readNumber } from "./number";
import { say, speakWith } from "./say";

const read = (files: Record<string, Record<string, string>>) =>
  Object.entries(files).map(([path, messages]) => [path.split("/").at(-1)!, messages] as const);
const english = read(import.meta.glob("./en/*.json", { eager: true, import: "default" }));
const german = new Map(read(import.meta.glob("./de/*.json", { eager: true, import: "default" })));
const values = (text: string) => [...text.matchAll(/\{\w+\}/g)].map(String).sort();

afterEach(() => {
  language.value = "en";
  speakWith(null);
});

describe("German", () => {
  it.each(english)("%s says each message, with the same values", (file, messages) => {
    const own = german.get(file) ?? {};
    expect(Object.keys(own).sort()).toEqual(Object.keys(messages).sort());
    for (const [name, text] of Object.entries(messages)) expect([name, values(own[name] ?? "")]).toEqual([name, values(text)]);
  });
  it("comes whole with the one file that is fetched for it", () => {
    const all = Object.assign({}, ...german.values());
    expect(Object.keys(de).sort()).toEqual(Object.keys(all).sort());
  });
  it("never promises more than the record knows", () => {
    for (const text of Object.values(de)) expect(text).not.toMatch(/\b(sicher|ok|okay|flugtauglich|geprüft und in Ordnung)\b/i);
  });
  it("is spoken once it is here, with its own plural and comma; what it lacks is said in English", () => {
    language.value = "de";
    speakWith({ "outbox.photos.one": "{n} Foto", "outbox.photos.other": "{n} Fotos" });
    expect([say("outbox.photos", { n: 1 }), say("outbox.photos", { n: 0 })]).toEqual(["1 Foto", "0 Fotos"]);
    expect(say("job.entries", { n: 2 })).toBe("2 entries");
    expect(number(47.45)).toBe("47,45");
  });
});

it("the device's first language that the page speaks is taken", () => {
  expect([["de-AT", "en"], ["fr", "de"], ["fr"], []].map(deviceLanguage)).toEqual(["de", "de", "en", "en"]);
});

it("a comma and a point are read alike, what is no number is none", () => {
  expect(["12,5", "12.5", " 7 ", "-0,5", "1.234,5", "", "12a"].map(readNumber)).toEqual([12.5, 12.5, 7, -0.5, null, null, null]);
});
