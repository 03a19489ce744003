import vectors from "@fixtures/vectors/messages.json";
import { readFileSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { expect, test } from "vitest";
import { Catalogue, type Values } from ".";

interface Case {
  id: string;
  in: { message: string; values: Values };
  out: string;
  pseudo?: string;
}
const cases = vectors.cases as unknown as Case[];
const ROOT = join(import.meta.dirname, "..");

function catalogue(isPseudo: boolean): Catalogue {
  const made = new Catalogue(isPseudo);
  made.add(vectors.ftl.join("\n"));
  return made;
}

test.each(cases.map((each) => [each.id, each] as const))("a message reads as it does on the server: %s", (_, each) => {
  expect(catalogue(false).say(each.in.message, each.in.values)).toBe(each.out);
  if (each.pseudo) expect(catalogue(true).say(each.in.message, each.in.values)).toBe(each.pseudo);
});

test("an unknown id and a missing value are faults", () => {
  expect(() => catalogue(false).say("nowhere")).toThrow("no message nowhere");
  expect(() => catalogue(false).say("carton", { count: 1 })).toThrow("Unknown variable: $line");
});

/** Every file that is loaded before the doors to what comes later. */
function loadedFirst(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(file, "utf8");
  for (const match of text.matchAll(/(?:import|export)\s(?!type\b)(?:[^;"]*?from\s+)?"(\.[^"]+)"|import\("(\.[^"]+)"\)/g)) {
    const place = join(dirname(file), match[1] ?? match[2]!);
    const next = [place, `${place}.ts`, join(place, "index.ts")].find((path) => statSync(path, { throwIfNoEntry: false })?.isFile());
    if (next && /\.(ts|svelte)$/.test(next) && !/\/walk\/later\.ts$|\/desk\/index\.ts$/.test(next)) loadedFirst(next, seen);
  }
  return seen;
}

test("what is shown first needs no words of the later screens", () => {
  const files = [...loadedFirst(join(ROOT, "main.ts"))];
  expect(files.map((file) => relative(ROOT, file))).toEqual(expect.arrayContaining(["walk/steps/Docket.svelte", "state/walk.svelte.ts"]));
  const later = readFileSync(join(ROOT, "../../inspections/messages/en/dock_later.ftl"), "utf8");
  const ids = [...later.matchAll(/^([a-z][\w-]*) =/gm)].map((match) => match[1]!);
  const early = files.flatMap((file) => {
    const text = readFileSync(file, "utf8");
    return ids.filter((id) => text.includes(`"${id}"`)).map((id) => `${relative(ROOT, file)}: ${id}`);
  });
  expect(early).toEqual([]);
});
