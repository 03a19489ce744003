import { expect, test } from "vitest";
import type { Me } from "../../trade/types";
import { KINDS, entriesOf, told, type KindName } from "./kinds";

const site = { id: "s1", name: "Harbour", code: "HARB", timezone: "UTC" };
const me = { id: 1, name: "Ada", role: "site_manager", sites: [site] } as unknown as Me;
const row = {
  id: "v",
  code: "VAN",
  name: "Whiteleg",
  species_code: "PNV",
  presentation: "HLSO",
  state: "raw",
  grade: "16/20",
  carton_net_g: 10000,
  units_per_carton: 5,
  declared_glaze_percent: null,
  origin: ["EC", "IN"],
  method: null,
  market: "EU",
  min_life_share: 0.6667,
  is_active: true,
};

test("a specification opened and saved without a change says the same", () => {
  const fields = KINDS.specifications.fields(me);
  const { body, unusable } = told(fields, entriesOf(fields, row), false);
  expect(unusable).toEqual({});
  const { id: _id, code: _code, min_life_share, ...rest } = row;
  expect(body).toEqual({ ...rest, min_life_share: 0.667 });
  expect(min_life_share).toBeCloseTo(body.min_life_share as number, 3);
});

test("a comma is a decimal sign, and kilograms become grams", () => {
  const fields = KINDS.specifications.fields(me);
  const { body } = told(
    fields,
    { ...entriesOf(fields, row), carton_net_g: "1,8", declared_glaze_percent: "12,5", origin: "ec, vn" },
    false,
  );
  expect([body.carton_net_g, body.declared_glaze_percent, body.origin]).toEqual([1800, 12.5, ["EC", "VN"]]);
});

test("what is missing or no number is named at its field", () => {
  const fields = KINDS.thermometers.fields(me);
  const { unusable } = told(fields, { ...entriesOf(fields, null), accuracy_c: "half" }, true);
  expect(unusable).toEqual({ name: "Fill this in.", accuracy_c: "Write a number." });
});

test("a password that is left empty is not sent", () => {
  const fields = KINDS.people.fields(me);
  const person = { id: "1", name: "Mia", username: "mia", role: "receiver", sites: ["s1"], email: "", is_active: true };
  expect(told(fields, entriesOf(fields, person), false).body).not.toHaveProperty("password");
  expect(told(fields, entriesOf(fields, person), true).unusable).toEqual({ password: "Fill this in." });
});

test("nobody is offered a role that is not below their own, but by an administrator", () => {
  const offered = (role: Me["role"]) =>
    KINDS.people
      .fields({ ...me, role })
      .find(({ name }) => name === "role")!
      .choices!.map(([value]) => value);
  expect(offered("site_manager")).toEqual(["receiver"]);
  expect(offered("group_operations")).toEqual(["receiver", "site_manager"]);
  expect(offered("administrator")).toContain("administrator");
});

test.each(Object.keys(KINDS) as KindName[])("every field of %s has a label of its own", (name) => {
  const labels = KINDS[name].fields(me).map(({ label }) => label);
  expect(new Set(labels).size).toBe(labels.length);
});
