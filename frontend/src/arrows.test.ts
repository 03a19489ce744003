import { readFileSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { expect, test } from "vitest";

/** Which folders the code of a folder may use; types may be named from anywhere. */
const MAY_USE: Record<string, string[]> = {
  messages: [],
  trade: [],
  store: ["messages"],
  camera: ["trade", "messages"],
  sync: ["store", "messages"],
  state: ["store", "sync", "trade", "camera", "messages"],
  walk: ["state", "trade", "camera", "offline", "messages"],
  offline: [],
};
const ROOT = import.meta.dirname;

function files(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.(ts|svelte)$/.test(entry.name) && !entry.name.includes(".test."))
    .map((entry) => join(entry.parentPath, entry.name));
}

function usedFolders(file: string): string[] {
  const text = readFileSync(file, "utf8");
  const imports = [...text.matchAll(/(?:^|\n)\s*(?:import|export)\s+(?!type\b)[^;]*?from\s+"(\.[^"]+)"|import\("(\.[^"]+)"\)/g)];
  return imports.map((match) => relative(ROOT, join(file, "..", match[1] ?? match[2]!)).split("/")[0]!);
}

test.each(Object.entries(MAY_USE))("%s uses only %j", (folder, allowed) => {
  for (const file of files(join(ROOT, folder))) {
    const strangers = usedFolders(file).filter((used) => used !== folder && !allowed.includes(used));
    expect(strangers, relative(ROOT, file)).toEqual([]);
  }
});

test("the reader of imports sees them", () => {
  const used = new Set(files(join(ROOT, "walk")).flatMap(usedFolders));
  expect([...used]).toEqual(expect.arrayContaining(["state", "walk", "camera"]));
});

test("only sync and the service worker speak to the network, only store opens the database", () => {
  for (const file of files(ROOT)) {
    const [path, text] = [relative(ROOT, file), readFileSync(file, "utf8")];
    if (!path.startsWith("sync/") && path !== "offline/sw.ts") expect(/(?<![\w.])fetch\(/.test(text), path).toBe(false);
    if (!path.startsWith("store/") && !path.startsWith("testing/")) expect(/openDB|indexedDB/.test(text), path).toBe(false);
  }
});
