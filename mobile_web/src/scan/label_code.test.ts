import { describe, expect, it } from "vitest";

import { checkCharacter, readLabel, shown } from "./label_code";
import vectors from "./label_vectors.json";

describe("label codes", () => {
  it("have the check characters that the server computes", () => {
    for (const [body, character] of vectors.check) expect([body, checkCharacter(body ?? "")]).toEqual([body, character]);
  });
  it("are read as the server reads them", () => {
    for (const [text, code, checked] of vectors.read) {
      const found = readLabel(String(text));
      expect([text, found?.code ?? null, found?.checked ?? null]).toEqual([text, code, checked]);
    }
  });
  it("are shown in three parts, others as they are", () => {
    expect([shown("T0042E"), shown("T-0042-E"), shown("MR8JZ")]).toEqual(["T-0042-E", "T-0042-E", "MR8JZ"]);
  });
});
