import { describe, expect, it } from "vitest";
import type { Inspection, Specification } from "../store/document";
import type { Advice } from "../trade/types";
import { isAdviceOff, linesWithoutAdvice } from "./advice_off";

const version = (id: string, number: number, advisory: boolean, of = "whiteleg") =>
  ({ id, specification_id: of, version: number, advisory }) as Specification;
const photo = (sha256: string, line_id: string | null, purpose = "top") => ({ id: sha256, sha256, line_id, purpose });
const body = {
  lines: [
    { id: "l1", specification_id: "v1" },
    { id: "l2", specification_id: "t1" },
  ],
  photos: [photo("a", "l1"), photo("b", "l2"), photo("c", null, "load")],
} as unknown as Inspection;
const answer = (said: Advice["answer"], code = "SWITCHED-OFF") => ({ answer: said, reasons: [{ code, text: "" }] }) as unknown as Advice;
const off = [version("v1", 1, true), version("v2", 2, false), version("t1", 1, true, "tiger")];
const ids = (lines: { id: string }[]) => lines.map(({ id }) => id);

describe("advice switched off", () => {
  it("is read from the newest version, although the order names an older one", () => {
    expect(isAdviceOff(off, "v1")).toBe(true);
    expect(isAdviceOff(off, "t1")).toBe(false);
    expect(isAdviceOff(off, "unheard of")).toBe(false);
    expect(isAdviceOff([version("v1", 1, false), version("v2", 2, true)], "v1")).toBe(false);
  });
  it("is said without a signal while the delivery is open", () => {
    expect(ids(linesWithoutAdvice(body, null, off, true))).toEqual(["l1"]);
    expect(ids(linesWithoutAdvice(body, { a: null, b: null }, off, true))).toEqual(["l1"]);
  });
  it("is the server's word once it has answered", () => {
    expect(ids(linesWithoutAdvice(body, { a: answer("switched_off"), b: answer("none_seen") }, [], false))).toEqual(["l1"]);
    expect(ids(linesWithoutAdvice(body, { a: answer("darkening_seen") }, off, false))).toEqual([]);
  });
  it("is not said of the whole line where only a photo's turn came after switching off", () => {
    expect(ids(linesWithoutAdvice(body, { a: answer("switched_off", "WAS-SWITCHED-OFF") }, off, false))).toEqual([]);
  });
  it("is not said of a signed delivery that nobody has answered yet, nor where no prawns were photographed", () => {
    expect(ids(linesWithoutAdvice(body, null, off, false))).toEqual([]);
    const papers = { ...body, photos: [photo("a", "l1", "label")] } as unknown as Inspection;
    expect(ids(linesWithoutAdvice(papers, null, off, true))).toEqual([]);
  });
});
