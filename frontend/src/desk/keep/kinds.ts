/** What is kept by hand: for each kind its fields, who may change it, and how one is named in the list. */
import species from "@trade-data/species.json";
import { WORDS } from "../../trade/wording";
import type { Me } from "../../trade/types";
import { ROLE_WORDS } from "../words";

export type KindName = "people" | "sites" | "suppliers" | "specifications" | "thermometers" | "freezers";
export type Row = { id: string } & Record<string, unknown>;
export interface Field {
  name: string;
  label: string;
  hint?: string;
  type: "text" | "email" | "password" | "number" | "date" | "yes" | "choice" | "sites" | "words" | "kg" | "share";
  choices?: [string, string][];
  optional?: boolean;
  /** May stay empty when an entry is changed, not when one is added. */
  optionalLater?: boolean;
  hintLater?: string;
  /** Only when a new one is added: it is what the entry is found by later. */
  onlyNew?: boolean;
  start?: unknown;
}
export interface Kind {
  title: string;
  one: string;
  note: string;
  fields: (me: Me) => Field[];
  writers: Me["role"][];
  name: (row: Row) => string;
  under: (row: Row, me: Me) => string;
  isOut: (row: Row) => boolean;
}

const GROUP: Me["role"][] = ["group_operations", "administrator"];
const MANAGERS: Me["role"][] = ["site_manager", ...GROUP];
const text = (value: unknown) => (typeof value === "string" ? value : "");
const siteName = (id: unknown, me: Me) => me.sites.find((site) => site.id === id)?.name ?? "";
const site = (me: Me): Field => ({ name: "site", label: "Site", type: "choice", choices: me.sites.map((one) => [one.id, one.name]) });
const MARKETS: [string, string][] = [
  ["EU", "European Union"],
  ["US", "United States"],
  ["ANZ", "Australia and New Zealand"],
  ["CODEX", "Codex (elsewhere)"],
];
const active = (label: string): Field => ({ name: "is_active", label, type: "yes", start: true });
const inUse: Field = { name: "in_use", label: "In use", type: "yes", start: true };
const ROLES_KEPT: Record<Me["role"], Me["role"][]> = {
  receiver: [],
  site_manager: ["receiver"],
  group_operations: ["receiver", "site_manager"],
  administrator: ["receiver", "site_manager", "group_operations", "administrator"],
};

export const KINDS: Record<KindName, Kind> = {
  people: {
    title: "People",
    one: "person",
    writers: MANAGERS,
    note: "A receiver sees the deliveries of their sites and receives; a site manager also answers for those sites; group operations answer for all. An account is ended, never removed: deliveries name it.",
    fields: (me) => [
      { name: "name", label: "Name, as it stands on the docket", type: "text" },
      { name: "username", label: "User name, for signing in", type: "text", hint: "Letters and digits, no blanks." },
      { name: "role", label: "Role", type: "choice", choices: ROLES_KEPT[me.role].map((role) => [role, ROLE_WORDS[role]]) },
      { name: "sites", label: "Sites", type: "sites" },
      { name: "email", label: "E-mail", type: "email", optional: true },
      {
        name: "password",
        label: "Password",
        type: "password",
        optionalLater: true,
        hint: "8 signs or more. Tell it to the person; they can ask for another.",
        hintLater: "8 signs or more. A new one signs the person out everywhere. Left empty, it stays as it is.",
      },
      {
        name: "pin",
        label: "PIN for shared devices",
        type: "password",
        optional: true,
        hint: "4 to 8 digits. Everybody can set their own, too.",
        hintLater: "4 to 8 digits. Left empty, it stays as it is.",
      },
      active("May sign in"),
    ],
    name: (row) => text(row.name),
    under: (row, me) =>
      [
        ROLE_WORDS[row.role as Me["role"]],
        (row.sites as string[])
          .map((id) => siteName(id, me))
          .filter(Boolean)
          .join(", "),
        row.has_pin ? "has a PIN" : "no PIN",
      ]
        .filter(Boolean)
        .join(" · "),
    isOut: (row) => row.is_active === false,
  },
  sites: {
    title: "Sites",
    one: "site",
    writers: GROUP,
    note: "A site is a kitchen that receives. Its clock gives the days of its deliveries, its market the rules for labels.",
    fields: () => [
      { name: "name", label: "Name", type: "text" },
      { name: "code", label: "Short code, as printed on seals", type: "text", hint: "Three to six letters.", onlyNew: true },
      { name: "timezone", label: "Time zone", type: "text", hint: "As in the tz database, such as Europe/Lisbon.", start: "UTC" },
      { name: "currency", label: "Currency", type: "text", hint: "Three letters, such as EUR.", start: "EUR" },
      { name: "market", label: "Market", type: "choice", choices: MARKETS, start: "CODEX" },
    ],
    name: (row) => text(row.name),
    under: (row) =>
      `${text(row.code)} · ${text(row.timezone)} · ${text(row.currency)} · ${MARKETS.find(([code]) => code === row.market)?.[1] ?? ""}`,
    isOut: () => false,
  },
  suppliers: {
    title: "Suppliers",
    one: "supplier",
    writers: GROUP,
    note: "Who delivers. One that is out of use is offered no more at the dock; its deliveries stay.",
    fields: () => [
      { name: "name", label: "Name", type: "text" },
      { name: "code", label: "Short code", type: "text", onlyNew: true },
      { name: "contact_name", label: "Contact", type: "text", optional: true },
      { name: "contact_email", label: "Contact’s e-mail", type: "email", optional: true },
      active("In use"),
    ],
    name: (row) => text(row.name),
    under: (row) => [row.code, row.contact_name, row.contact_email].filter(Boolean).join(" · "),
    isOut: (row) => row.is_active === false,
  },
  specifications: {
    title: "Specifications",
    one: "specification",
    writers: GROUP,
    note: "What is bought. A change makes a new version; deliveries keep the one they were judged by.",
    fields: () => [
      { name: "name", label: "Name", type: "text" },
      { name: "code", label: "Code", type: "text", onlyNew: true },
      { name: "species_code", label: "Species", type: "choice", choices: speciesChoices() },
      { name: "presentation", label: "Presentation", type: "choice", choices: presentations(), start: "HLSO" },
      {
        name: "state",
        label: "State",
        type: "choice",
        choices: [
          ["raw", "raw"],
          ["part_cooked", "part cooked"],
          ["cooked", "cooked"],
        ],
        start: "raw",
      },
      { name: "grade", label: "Size grade", type: "text", hint: "Such as 16/20, U/10 or 30/40 per kg." },
      { name: "carton_net_g", label: "Net weight of a carton, kg", type: "kg" },
      { name: "units_per_carton", label: "Packs or blocks in a carton", type: "number", start: 1 },
      { name: "declared_glaze_percent", label: "Declared glaze, %", type: "number", optional: true },
      { name: "origin", label: "Countries of origin", type: "words", optional: true, hint: "Two-letter codes, comma between." },
      {
        name: "method",
        label: "Production method",
        type: "choice",
        optional: true,
        choices: [
          ["", "not agreed"],
          ["farmed", "farmed"],
          ["caught", "caught at sea"],
          ["caught_freshwater", "caught in fresh water"],
        ],
      },
      { name: "market", label: "Market", type: "choice", choices: MARKETS, start: "CODEX" },
      { name: "min_life_share", label: "Least shelf life left at arrival, % of the whole", type: "share", optional: true },
      active("In use"),
    ],
    name: (row) => text(row.name),
    under: (row) =>
      [row.code, row.species_code, row.presentation, row.state, row.grade, `version ${String(row.version)}`].filter(Boolean).join(" · "),
    isOut: (row) => row.is_active === false,
  },
  thermometers: {
    title: "Thermometers",
    one: "thermometer",
    writers: MANAGERS,
    note: "What is measured with. Checks in ice are filed at the dock; one noted here counts when its day is later.",
    fields: (me) => [
      { name: "name", label: "Name", type: "text" },
      site(me),
      { name: "accuracy_c", label: "Accuracy, ± °C", type: "number", start: 0.5 },
      { name: "last_checked_on", label: "Last check in ice, noted by hand", type: "date", optional: true },
      { name: "last_check_c", label: "It read, °C", type: "number", optional: true },
      { name: "check_due_on", label: "Next check due", type: "date", optional: true },
      inUse,
    ],
    name: (row) => text(row.name),
    under: (row, me) => `${siteName(row.site, me)} · ± ${String(row.accuracy_c)} °C`,
    isOut: (row) => row.in_use === false,
  },
  freezers: {
    title: "Freezers",
    one: "freezer",
    writers: MANAGERS,
    note: "Where cartons are put away.",
    fields: (me) => [{ name: "name", label: "Name", type: "text" }, site(me), inUse],
    name: (row) => text(row.name),
    under: (row, me) => siteName(row.site, me),
    isOut: (row) => row.in_use === false,
  },
};

function presentations(): [string, string][] {
  return Object.entries(WORDS.presentation as Record<string, string>).map(([code, words]) => [code, `${code}, ${words}`]);
}
function speciesChoices(): [string, string][] {
  return species.species.map((row) => [row.code, `${row.code}, ${row.name} (${row.scientific_name})`]);
}

/** What stands in the form at the start: of an entry that is there, or of a new one. */
export function entriesOf(fields: Field[], row: Row | null): Record<string, string | boolean | string[]> {
  return Object.fromEntries(fields.map((field) => [field.name, shownIn(field, row ? row[field.name] : field.start)]));
}
function shownIn(field: Field, value: unknown): string | boolean | string[] {
  if (field.type === "yes") return value === true;
  if (field.type === "sites") return Array.isArray(value) ? [...(value as string[])] : [];
  if (field.type === "words") return Array.isArray(value) ? value.join(", ") : "";
  if (value === null || value === undefined)
    return field.type === "choice" ? (field.choices?.length === 1 ? field.choices[0]![0] : "") : "";
  if (field.type === "kg") return String(Number(value) / 1000);
  if (field.type === "share") return String(Math.round(Number(value) * 1000) / 10);
  return String(value);
}

export function mustBeFilled(field: Field, isNew: boolean): boolean {
  return !field.optional && !(field.optionalLater && !isNew);
}

/** The form's entries as the server takes them; a field that cannot be read is named in `unusable`. */
export function told(
  fields: Field[],
  entries: Record<string, string | boolean | string[]>,
  isNew: boolean,
): { body: Record<string, unknown>; unusable: Record<string, string> } {
  const body: Record<string, unknown> = {};
  const unusable: Record<string, string> = {};
  for (const field of fields) {
    if (field.onlyNew && !isNew) continue;
    const value = entries[field.name];
    if (typeof value !== "string") body[field.name] = value;
    else if (!value.trim() && mustBeFilled(field, isNew)) unusable[field.name] = "Fill this in.";
    else if (field.type === "words")
      body[field.name] = value
        .split(",")
        .map((word) => word.trim().toUpperCase())
        .filter(Boolean);
    else if (["number", "kg", "share"].includes(field.type)) {
      const number = value.trim() ? Number(value.trim().replace(",", ".").replace("−", "-")) : null;
      if (number !== null && Number.isNaN(number)) unusable[field.name] = "Write a number.";
      else
        body[field.name] =
          number === null
            ? null
            : field.type === "kg"
              ? Math.round(number * 1e6) / 1000
              : field.type === "share"
                ? Math.round(number * 10) / 1000
                : number;
    } else if (field.type === "date") body[field.name] = value || null;
    else if (field.type === "password") {
      if (value) body[field.name] = value;
    } else if (field.type === "choice" && !value) body[field.name] = null;
    else body[field.name] = value.trim();
  }
  return { body, unusable };
}
