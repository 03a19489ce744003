import { expect, test } from "vitest";
import { stillThere } from "./set_apart";
import type { Line, SetApartBody } from "../trade/types";

const line = { id: "l1", decision: { kind: "reject", accepted: 4, refused: 12, held: 3, reason: "", decided_at: "" } } as unknown as Line;
const said = (event: SetApartBody["event"], count: number, part: "refused" | "held" = "refused") => ({
  event,
  happened_at: "",
  where: "",
  by: "",
  cartons: [{ line_id: "l1", part, count }],
});

test("what was fetched is gone; what was only said to stand somewhere is not", () => {
  expect(stillThere([line], [said("stand", 12), said("fetched", 5)])).toEqual([
    { line_id: "l1", part: "refused", count: 7 },
    { line_id: "l1", part: "held", count: 3 },
  ]);
  expect(stillThere([line], [said("fetched", 5), said("fetched", 7)])).toEqual([{ line_id: "l1", part: "held", count: 3 }]);
});

test("held ones that are released are gone, those refused after all stand with the refused", () => {
  expect(stillThere([line], [said("released", 1, "held"), said("refused", 2, "held")])).toEqual([
    { line_id: "l1", part: "refused", count: 14 },
  ]);
});
