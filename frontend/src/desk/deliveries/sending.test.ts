import { describe, expect, it } from "vitest";
import type { NewEvidenceLink } from "../../trade/types";
import { messageFor } from "./sending";

const link: NewEvidenceLink = {
  id: "1",
  delivery_id: "d1",
  created_by: "Ines Castel",
  created_at: "2026-10-03T06:00:00Z",
  revoked_at: null,
  to_whom: "",
  openings: 0,
  first_opened_at: null,
  last_opened_at: null,
  expires_at: "2026-12-02T06:00:00Z",
  url: "https://receiving.example/e/abc_-",
  qr: { size: 1, path: "" },
  mail_to: "ade@coldreach.example",
  seal: { number: 12, sha256: "ab".repeat(32) },
};

describe("the words that a link travels with", () => {
  it("carry the address and the seal, an anchor in the supplier's own mailbox", () => {
    const { text } = messageFor(link, "DN-5530", "Europe/Lisbon");
    expect(text).toContain("https://receiving.example/e/abc_-");
    expect(text).toContain(`Seal 12 of the record, SHA-256: ${"ab".repeat(32)}`);
  });
  // RFC 6068 section 5: line breaks in a body are %0D%0A, blanks are %20
  it("make an address for the mail program that reads back the same", () => {
    const { mail, text, title } = messageFor(link, "DN & 5530", "Europe/Lisbon");
    expect(mail).not.toMatch(/[\s+]/);
    const read = new URL(mail);
    expect(decodeURIComponent(read.pathname)).toBe("ade@coldreach.example");
    expect(read.searchParams.get("subject")).toBe(title);
    expect(read.searchParams.get("body")).toBe(text.replaceAll("\n", "\r\n"));
  });
});
