import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { parse, type AST } from "svelte/compiler";
import ts from "typescript";
import { expect, test } from "vitest";

/** The screens that are said from the catalogue; a folder joins when it has moved. */
const MOVED = ["App.svelte", "walk", "state", "sync", "camera", "desk"];
/** Written as it is: the rows that a table to import begins with, and what is told to those who build. */
const DATA = ["Name on the docket", "Contact's name", "Dock probe 1", "Whiteleg headless shell-on 16/20"];
/** Attributes that a person reads or hears. */
const SAID = ["title", "under", "label", "placeholder", "aria-label", "alt", "hint", "what"];
/** Not language: how a code or a date is written. */
const SHAPES = ["XXXX-XXXX", "dd.mm.yyyy"];
/** What these are given is read by no person. */
const UNSAID = /(^|\.)(\w*Error|DateTimeFormat|counted|includes|matchMedia|querySelector(All)?)$/;

/** Single words that the desk still says by itself. */
const DESK_WORDS = ["passed", "failed"];
const ROOT = join(import.meta.dirname, "..");

interface Node {
  type?: string;
  name?: string;
  data?: string;
  attributes?: Node[];
  value?: unknown;
  consequent?: Node;
  alternate?: Node;
}

/** Every plain text of the markup that has two letters in a row, with those attributes that are read. */
function plainTexts(part: unknown, found: string[] = []): string[] {
  if (Array.isArray(part)) part.forEach((each) => plainTexts(each, found));
  else if (part && typeof part === "object") {
    const node = part as Node;
    if (node.type === "CallExpression" && UNSAID.test((part as { callee: Node }).callee.name ?? "")) return found;
    if (node.type === "Attribute" && !SAID.includes(node.name ?? "")) return found;
    if (node.type === "Literal" && / [a-z]{2}/i.test(String(node.value))) found.push(String(node.value));
    if (node.type === "Text" && /[a-z]{2}/i.test(node.data ?? "") && !SHAPES.includes(node.data!)) found.push(node.data!.trim());
    if (node.type === "ConditionalExpression") {
      for (const way of [node.consequent, node.alternate]) {
        if (way?.type === "Literal" && typeof way.value === "string" && /^[a-z]{2,}…?$/i.test(way.value) && !DESK_WORDS.includes(way.value))
          found.push(way.value);
      }
    }
    for (const [key, each] of Object.entries(node)) if (!["css", "instance", "module", "tag"].includes(key)) plainTexts(each, found);
  }
  return found;
}
/** Every text of two words in a row that the code itself says, but for faults of its own and its imports. */
function plainStrings(source: string): string[] {
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    const called = ts.isNewExpression(node) || ts.isCallExpression(node) ? node.expression.getText() : "";
    if (UNSAID.test(called) || ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node))
      if (/[a-z]{2}[,.:;]? [a-z]{2}/i.test(node.text) && !node.text.startsWith("<") && !DATA.includes(node.text)) found.push(node.text);
    node.forEachChild(look);
  };
  look(ts.createSourceFile("x.ts", source, ts.ScriptTarget.Latest, true));
  return found;
}
const scriptOf = (source: string): string => [...source.matchAll(/<script[^>]*>([^]*?)<\/script>/g)].map((match) => match[1]).join("\n");
const plainIn = (source: string): string[] => plainTexts((parse(source, { modern: true }) as AST.Root).fragment);

const files = MOVED.flatMap((place) =>
  place.endsWith(".svelte") ? [place] : readdirSync(join(ROOT, place), { recursive: true }).map((name) => join(place, String(name))),
).filter((name) => /\.(svelte|ts)$/.test(name) && !name.includes(".test."));

test("what is left in plain words is found", () => {
  expect(plainIn(`<p class="soft">Count the cartons</p><input placeholder="Lot" data-testid="lot" />{t("dock-next")}`)).toEqual([
    "Count the cartons",
    "Lot",
  ]);
  expect(plainStrings(`import "x y"; if (isOff) said = "Nothing was kept"; throw new Error("not this one");`)).toEqual([
    "Nothing was kept",
  ]);
  expect(plainIn(`<p class={isOver ? "over" : ""}>{isOver ? t("dock-next") : "running"}</p>`)).toEqual(["running"]);
});

test.each(files)("%s says nothing beside the catalogue", (name) => {
  const source = readFileSync(join(ROOT, name), "utf8");
  const isScreen = name.endsWith(".svelte");
  expect([...(isScreen ? plainIn(source) : []), ...plainStrings(isScreen ? scriptOf(source) : source)]).toEqual([]);
});
