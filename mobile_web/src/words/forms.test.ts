import { afterEach, describe, expect, it } from "vitest";

import german from "./forms/de.json";
import { inWords, speakForms } from "./forms";
import { language } from "./language";

const LEFT = {
  form: "{pieces} {are} still in {container}: {what}.",
  parts: {
    pieces: { form: "{n} pieces", parts: { n: "2" } },
    are: { form: "are", parts: {} },
    container: "{pieces}",
    what: { form: "{n} x {type} ({set})", parts: { n: "2", type: "M8x30", set: { form: "no set", parts: {} } } },
  },
};
const LEFT_TEXT = "2 pieces are still in {pieces}: 2 x M8x30 (no set).";
const PULLED = { form: "{value} N·m", parts: { value: "89.3" } };

afterEach(() => {
  speakForms(null);
  language.value = "en";
});

describe("a sentence of the server's", () => {
  it("stays as it is in English", () => {
    expect(inWords(LEFT_TEXT, [LEFT])).toBe(LEFT_TEXT);
  });
  it("is said in the page's language, names as they are, numbers as people here write them", () => {
    language.value = "de";
    speakForms(german);
    expect(inWords(LEFT_TEXT, [PULLED, LEFT])).toBe("2 Stück sind noch in {pieces}: 2 × M8x30 (kein Satz).");
    expect(inWords("89.3 N·m", [PULLED])).toBe("89,3 N·m");
    expect(inWords("Take it out, with a photo.")).toBe("Herausnehmen, mit Foto.");
  });
  it("stays English where the language has no form, with the parts that it has", () => {
    speakForms({ "no set": "kein Satz" });
    expect(inWords(LEFT_TEXT, [LEFT])).toBe("2 pieces are still in {pieces}: 2 x M8x30 (kein Satz).");
    expect(inWords("No one knows this one.", [LEFT])).toBe("No one knows this one.");
  });
});
