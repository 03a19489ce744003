/** What can be imported, by whom, and a filled-in first line to start from. */
import { t } from "../../messages/desk";
import type { ImportKind, Role } from "../../trade/types";

export interface Table {
  kind: ImportKind;
  name: string;
  /** What a line is, and what a second import of it does. */
  about: string;
  who: readonly Role[];
  headings: readonly string[];
  example: readonly string[];
}

const OPERATIONS: readonly Role[] = ["group_operations", "administrator"];
const MANAGERS: readonly Role[] = ["site_manager", ...OPERATIONS];

export const TABLES: readonly Table[] = [
  {
    kind: "orders",
    name: t("desk-orders"),
    about: t("desk-tables-one-line-for-each"),
    who: MANAGERS,
    headings: ["number", "supplier", "site", "expected_on", "specification", "cartons", "price_per_kg"],
    example: ["PO-1001", "SUPPLIER-CODE", "SITE-CODE", "2026-01-31", "SPECIFICATION-CODE", "20", "11.40"],
  },
  {
    kind: "suppliers",
    name: t("desk-suppliers"),
    about: t("desk-tables-one-line-for-each-2"),
    who: OPERATIONS,
    headings: ["code", "name", "contact_name", "contact_email"],
    example: ["SUPPLIER-CODE", "Name on the docket", "Contact's name", "contact@example.com"],
  },
  {
    kind: "specifications",
    name: t("desk-specifications"),
    about: t("desk-tables-one-line-for-each-3"),
    who: OPERATIONS,
    headings: [
      "code",
      "name",
      "species",
      "presentation",
      "state",
      "grade",
      "carton_net",
      "units_per_carton",
      "declared_glaze_percent",
      "origin",
      "method",
      "market",
      "min_life_share",
      "advisory",
    ],
    example: [
      "VAN-HLSO-1620",
      "Whiteleg headless shell-on 16/20",
      "PNV",
      "HLSO",
      "raw",
      "16/20",
      "10 kg",
      "5",
      "10",
      "EC",
      "farmed",
      "EU",
      "0.6667",
      "yes",
    ],
  },
  {
    kind: "thermometers",
    name: t("desk-thermometers"),
    about: t("desk-tables-one-line-for-each-4"),
    who: MANAGERS,
    headings: ["site", "name", "accuracy_c", "last_checked_on", "last_check_c", "check_due_on", "in_use"],
    example: ["SITE-CODE", "Dock probe 1", "0.5", "2026-01-05", "0.1", "2026-04-05", "yes"],
  },
];

export function tablesFor(role: Role): readonly Table[] {
  return TABLES.filter((table) => table.who.includes(role));
}

/** The template as a file: byte-order mark and separator so that spreadsheets open it in columns. */
export function templateCsv(table: Table): string {
  const line = (cells: readonly string[]) => cells.map(quoted).join(";");
  return `\uFEFF${line(table.headings)}\r\n${line(table.example)}\r\n`;
}
function quoted(cell: string): string {
  return /[";\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
