import { expect, test } from "vitest";
import { checkCartons, checkPieces, checkSampleWeight, checkTemperature, checkWeight, dayFrom, entryShown } from "./readings";

const isSentence = (text: string | null) => expect(text).toMatch(/The rest is kept\. .+\.$/);

test("letters in a weight, a wrong sign, a missing entry: one plain sentence each", () => {
  for (const wrong of [
    checkWeight("12abc", "g"),
    checkWeight("", "kg"),
    checkTemperature("-180", "C"),
    checkPieces("5000"),
    checkPieces("4,5"),
    checkCartons("x"),
  ])
    isSentence(wrong);
  expect(checkTemperature("-18,2", "C")).toBeNull();
  expect(checkTemperature("0", "F")).toBeNull();
  expect(checkCartons("0")).toBeNull();
});

test("an entry is shown with a point and a true minus sign, whichever was typed; so is one that cannot be", () => {
  expect(["-17,2", "−17.2"].map((entered) => entryShown({ entered, unit: "C" }))).toEqual(Array(2).fill("−17.2 °C"));
  expect(checkTemperature("-180", "C")).toContain("“−180 C”");
});

test("numbers that no prawn can have are questioned at once; 41 in 1020 g pass", () => {
  isSentence(checkSampleWeight("500", "g", 2000));
  isSentence(checkSampleWeight("102", "kg", 41));
  isSentence(checkSampleWeight("50", "kg", 41));
  expect(checkSampleWeight("1020", "g", 41)).toBeNull();
  expect(checkSampleWeight("2,25", "lb", 41)).toBeNull();
});

test("a day is read as day, month, year, and only when the calendar has it", () => {
  const typed = ["31.03.2028", "310328", "31032028", "31/3/28", "31,3,28", "31 3 2028", "31 Mar 2028", "31 march 28", "31-MAR-2028"];
  expect([...typed, "2028-03-31"].map(dayFrom)).toEqual(Array(10).fill("2028-03-31"));
  expect(dayFrom("29.02.2028")).toBe("2028-02-29");
  expect(["29.02.2027", "31.04.2028", "13", "31 Mai 2028", "aa"].map(dayFrom)).toEqual(Array(5).fill(null));
});
