/** The code on a docket is read by another library (zxing) and says the record's address and the site's seal. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { correction, generate } from "lean-qr";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";
import { expect, test } from "vitest";
import type { Reference } from "../trade/types";
import { docketAddress, sealKnown } from "./docket_code";

const ID = "0198f3c2-7a10-7bbb-8c11-0123456789ab";
const SHA256 = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08";
const told = (site_id: string, public_address = "") =>
  ({ public_address, latest_seals: [{ site_id, number: 12, sha256: SHA256 }] }) as unknown as Reference;

/** A picture of the code, 4 pixels a module, as a scanner sees it. */
function picture(text: string): ImageData {
  const code = generate(text, { minCorrectionLevel: correction.M });
  const side = (code.size + 8) * 4;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++)
      if (code.get(Math.floor(x / 4) - 4, Math.floor(y / 4) - 4)) data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
  return { data, width: side, height: side, colorSpace: "srgb" } as ImageData;
}

test("a scanner reads the address and the seal off the code", async () => {
  const wasm = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  await prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(await readFile(wasm)).buffer }, fireImmediately: true });
  const text = docketAddress(ID, sealKnown(null, "harbour", told("harbour")), told("harbour"), "https://kitchen.example");
  expect(text).toBe(`https://kitchen.example/e/docket/${ID}#seal-12-9f86d081884c7d65`);
  const read = await readBarcodes(picture(text), { formats: ["QRCode"] });
  expect(read.map((one) => one.text)).toEqual([text]);
});

test("the record's own seal counts first, another site's never, and without any the address stands alone", () => {
  const own = { number: 13, sha256: "ab".repeat(32) };
  expect(sealKnown(own, "harbour", told("harbour"))).toBe(own);
  expect(sealKnown(undefined, "hill", told("harbour"))).toBeNull();
  expect(sealKnown(null, "harbour", {} as Reference)).toBeNull(); // kept of an earlier server
  expect(docketAddress(ID, null, told("harbour", "https://told.example"), "https://here.example")).toBe(
    `https://told.example/e/docket/${ID}`,
  );
});
