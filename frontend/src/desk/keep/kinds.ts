/** What is kept by hand: for each kind its fields, who may change it, and how one is named in the list. */
import { t } from "../../messages/desk";
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
const site = (me: Me): Field => ({
  name: "site",
  label: t("desk-site"),
  type: "choice",
  choices: me.sites.map((one) => [one.id, one.name]),
});
const MARKETS: [string, string][] = [
  ["EU", t("desk-kinds-european-union")],
  ["US", t("desk-kinds-united-states")],
  ["ANZ", t("desk-kinds-australia-new-zealand")],
  ["CODEX", t("desk-kinds-codex-elsewhere")],
];
const active = (label: string): Field => ({ name: "is_active", label, type: "yes", start: true });
const inUse: Field = { name: "in_use", label: t("desk-kinds-use"), type: "yes", start: true };
const ROLES_KEPT: Record<Me["role"], Me["role"][]> = {
  receiver: [],
  site_manager: ["receiver"],
  group_operations: ["receiver", "site_manager"],
  administrator: ["receiver", "site_manager", "group_operations", "administrator"],
};

export const KINDS: Record<KindName, Kind> = {
  people: {
    title: t("desk-kinds-people"),
    one: "person",
    writers: MANAGERS,
    note: t("desk-kinds-receiver-sees-deliveries-their"),
    fields: (me) => [
      { name: "name", label: t("desk-kinds-name-as-stands-docket"), type: "text" },
      { name: "username", label: t("desk-kinds-user-name-for-signing"), type: "text", hint: t("desk-kinds-letters-digits-no-blanks") },
      { name: "role", label: t("desk-kinds-role"), type: "choice", choices: ROLES_KEPT[me.role].map((role) => [role, ROLE_WORDS[role]]) },
      { name: "sites", label: t("desk-kinds-sites"), type: "sites" },
      { name: "email", label: "E-mail", type: "email", optional: true },
      {
        name: "password",
        label: t("desk-password"),
        type: "password",
        optionalLater: true,
        hint: t("desk-kinds-8-signs-or-more"),
        hintLater: t("desk-kinds-8-signs-or-more-2"),
      },
      {
        name: "pin",
        label: t("desk-kinds-pin-for-shared-devices"),
        type: "password",
        optional: true,
        hint: t("desk-kinds-4-8-digits-everybody"),
        hintLater: t("desk-kinds-4-8-digits-left"),
      },
      active(t("desk-kinds-may-sign")),
    ],
    name: (row) => text(row.name),
    under: (row, me) =>
      [
        ROLE_WORDS[row.role as Me["role"]],
        (row.sites as string[])
          .map((id) => siteName(id, me))
          .filter(Boolean)
          .join(", "),
        row.has_pin ? t("desk-kinds-pin") : t("desk-kinds-no-pin"),
      ]
        .filter(Boolean)
        .join(" · "),
    isOut: (row) => row.is_active === false,
  },
  sites: {
    title: t("desk-kinds-sites"),
    one: "site",
    writers: GROUP,
    note: t("desk-kinds-site-kitchen-receives-its"),
    fields: () => [
      { name: "name", label: t("desk-kinds-name"), type: "text" },
      { name: "code", label: t("desk-kinds-short-code-as-printed"), type: "text", hint: t("desk-kinds-three-six-letters"), onlyNew: true },
      { name: "timezone", label: t("desk-kinds-time-zone"), type: "text", hint: t("desk-kinds-as-tz-database-such"), start: "UTC" },
      { name: "currency", label: t("desk-kinds-currency"), type: "text", hint: t("desk-kinds-three-letters-such-as"), start: "EUR" },
      { name: "market", label: t("desk-kinds-market"), type: "choice", choices: MARKETS, start: "CODEX" },
    ],
    name: (row) => text(row.name),
    under: (row) =>
      `${text(row.code)} · ${text(row.timezone)} · ${text(row.currency)} · ${MARKETS.find(([code]) => code === row.market)?.[1] ?? ""}`,
    isOut: () => false,
  },
  suppliers: {
    title: t("desk-suppliers"),
    one: "supplier",
    writers: GROUP,
    note: t("desk-kinds-who-delivers-one-out"),
    fields: () => [
      { name: "name", label: t("desk-kinds-name"), type: "text" },
      { name: "code", label: t("desk-kinds-short-code"), type: "text", onlyNew: true },
      { name: "contact_name", label: t("desk-kinds-contact"), type: "text", optional: true },
      { name: "contact_email", label: t("desk-kinds-contacts-e-mail"), type: "email", optional: true },
      active(t("desk-kinds-use")),
    ],
    name: (row) => text(row.name),
    under: (row) => [row.code, row.contact_name, row.contact_email].filter(Boolean).join(" · "),
    isOut: (row) => row.is_active === false,
  },
  specifications: {
    title: t("desk-specifications"),
    one: "specification",
    writers: GROUP,
    note: t("desk-kinds-what-bought-change-makes"),
    fields: () => [
      { name: "name", label: t("desk-kinds-name"), type: "text" },
      { name: "code", label: t("desk-kinds-code"), type: "text", onlyNew: true },
      { name: "species_code", label: t("desk-kinds-species"), type: "choice", choices: speciesChoices() },
      { name: "presentation", label: t("desk-kinds-presentation"), type: "choice", choices: presentations(), start: "HLSO" },
      {
        name: "state",
        label: t("desk-kinds-state"),
        type: "choice",
        choices: [
          ["raw", t("desk-kinds-raw")],
          ["part_cooked", t("desk-kinds-part-cooked")],
          ["cooked", t("desk-kinds-cooked")],
        ],
        start: "raw",
      },
      { name: "grade", label: t("desk-kinds-size-grade"), type: "text", hint: t("desk-kinds-such-as-16-20") },
      { name: "carton_net_g", label: t("desk-kinds-net-weight-carton-kg"), type: "kg" },
      { name: "units_per_carton", label: t("desk-kinds-packs-or-blocks-carton"), type: "number", start: 1 },
      { name: "declared_glaze_percent", label: t("desk-kinds-declared-glaze"), type: "number", optional: true },
      {
        name: "origin",
        label: t("desk-kinds-countries-origin"),
        type: "words",
        optional: true,
        hint: t("desk-kinds-two-letter-codes-comma"),
      },
      {
        name: "method",
        label: t("desk-kinds-production-method"),
        type: "choice",
        optional: true,
        choices: [
          ["", t("desk-kinds-not-agreed")],
          ["farmed", t("desk-kinds-farmed")],
          ["caught", t("desk-kinds-caught-sea")],
          ["caught_freshwater", t("desk-kinds-caught-fresh-water")],
        ],
      },
      { name: "market", label: t("desk-kinds-market"), type: "choice", choices: MARKETS, start: "CODEX" },
      { name: "min_life_share", label: t("desk-kinds-least-shelf-life-left"), type: "share", optional: true },
      active(t("desk-kinds-use")),
    ],
    name: (row) => text(row.name),
    under: (row) =>
      [row.code, row.species_code, row.presentation, row.state, row.grade, t("desk-kinds-version", { version: String(row.version) })]
        .filter(Boolean)
        .join(" · "),
    isOut: (row) => row.is_active === false,
  },
  thermometers: {
    title: t("desk-thermometers"),
    one: "thermometer",
    writers: MANAGERS,
    note: t("desk-kinds-what-measured-with-checks"),
    fields: (me) => [
      { name: "name", label: t("desk-kinds-name"), type: "text" },
      site(me),
      { name: "accuracy_c", label: "Accuracy, ± °C", type: "number", start: 0.5 },
      { name: "last_checked_on", label: t("desk-kinds-last-check-ice-noted"), type: "date", optional: true },
      { name: "last_check_c", label: t("desk-kinds-read-c"), type: "number", optional: true },
      { name: "check_due_on", label: t("desk-kinds-next-check-due"), type: "date", optional: true },
      inUse,
    ],
    name: (row) => text(row.name),
    under: (row, me) => `${siteName(row.site, me)} · ± ${String(row.accuracy_c)} °C`,
    isOut: (row) => row.in_use === false,
  },
  freezers: {
    title: t("desk-kinds-freezers"),
    one: "freezer",
    writers: MANAGERS,
    note: t("desk-kinds-where-cartons-put-away"),
    fields: (me) => [{ name: "name", label: t("desk-kinds-name"), type: "text" }, site(me), inUse],
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
    else if (!value.trim() && mustBeFilled(field, isNew)) unusable[field.name] = t("desk-kinds-fill");
    else if (field.type === "words")
      body[field.name] = value
        .split(",")
        .map((word) => word.trim().toUpperCase())
        .filter(Boolean);
    else if (["number", "kg", "share"].includes(field.type)) {
      const number = value.trim() ? Number(value.trim().replace(",", ".").replace("−", "-")) : null;
      if (number !== null && Number.isNaN(number)) unusable[field.name] = t("desk-kinds-write-number");
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
