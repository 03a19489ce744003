import { readFileSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { parse, type AST } from "svelte/compiler";
import { expect, test } from "vitest";

/** The screens that are said from the catalogue; a folder joins when it has moved. */
const MOVED = ["App.svelte", "walk"];
/** Attributes that a person reads or hears. */
const SAID = ["title", "under", "label", "placeholder", "aria-label", "alt", "hint", "what"];
/** Not language: how a code or a date is written. */
const SHAPES = ["XXXX-XXXX", "dd.mm.yyyy"];
const ROOT = join(import.meta.dirname, "..");

interface Node {
  type?: string;
  name?: string;
  data?: string;
  attributes?: Node[];
  value?: unknown;
}

/** Every plain text of the markup that has two letters in a row, with those attributes that are read. */
function plainTexts(part: unknown, found: string[] = []): string[] {
  if (Array.isArray(part)) part.forEach((each) => plainTexts(each, found));
  else if (part && typeof part === "object") {
    const node = part as Node;
    if (node.type === "Attribute" && !SAID.includes(node.name ?? "")) return found;
    if (node.type === "Text" && /[a-z]{2}/i.test(node.data ?? "") && !SHAPES.includes(node.data!)) found.push(node.data!.trim());
    for (const [key, each] of Object.entries(node)) if (key !== "css" && key !== "instance" && key !== "module") plainTexts(each, found);
  }
  return found;
}
const plainIn = (source: string): string[] => plainTexts((parse(source, { modern: true }) as AST.Root).fragment);

const screens = MOVED.flatMap((place) =>
  place.endsWith(".svelte") ? [place] : readdirSync(join(ROOT, place), { recursive: true }).map((name) => join(place, String(name))),
).filter((name) => name.endsWith(".svelte"));

test("what is left in plain words is found", () => {
  expect(plainIn(`<p class="soft">Count the cartons</p><input placeholder="Lot" data-testid="lot" />{t("dock-next")}`)).toEqual([
    "Count the cartons",
    "Lot",
  ]);
});

test.each(screens)("%s says nothing beside the catalogue", (name) => {
  expect(plainIn(readFileSync(join(ROOT, name), "utf8")), relative(ROOT, name)).toEqual([]);
});
