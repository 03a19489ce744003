import { describe, expect, it } from "vitest";
import { TABLES, tablesFor, templateCsv } from "./tables";

describe("import templates", () => {
  it.each(TABLES.map((table) => [table.kind, table] as const))("give every heading of %s a cell", (_, table) => {
    const [headings, example] = templateCsv(table).replace("\uFEFF", "").trim().split("\r\n");
    expect(headings!.split(";")).toEqual(table.headings);
    expect(example!.split(";")).toHaveLength(table.headings.length);
  });
  it("begin with a byte-order mark, so that a spreadsheet reads them as UTF-8", () => {
    expect(templateCsv(TABLES[0]!).startsWith("\uFEFF")).toBe(true);
  });
  it("are offered to those who may import them", () => {
    expect(tablesFor("receiver")).toEqual([]);
    expect(tablesFor("site_manager").map((table) => table.kind)).toEqual(["orders", "thermometers"]);
    expect(tablesFor("administrator")).toHaveLength(4);
  });
});
