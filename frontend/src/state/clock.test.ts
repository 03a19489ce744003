import { expect, test } from "vitest";
import { clockSentence, otherNameSentence } from "./clock.svelte";

test("a clock that is a little off is no matter", () => {
  for (const offset of [0, 9 * 60_000, -9 * 60_000]) expect(clockSentence(offset)).toBeNull();
});

test("a clock that is wrong is told before signing, with how much and which way", () => {
  expect(clockSentence(-5 * 366 * 86_400_000)).toMatch(/^This phone's clock is 1830 days ahead of the server's\./);
  expect(clockSentence(3 * 3_600_000)).toMatch(/^This phone's clock is 3 h behind the server's\./);
});

test("another name than that of the person signed in is told, case and blanks aside", () => {
  expect(otherNameSentence(" mia  castel", "Mia Castel")).toBeNull();
  expect(otherNameSentence("", "Mia Castel")).toBeNull();
  expect(otherNameSentence("Tom Arden", "Mia Castel")).toContain("the record will show both names");
});
