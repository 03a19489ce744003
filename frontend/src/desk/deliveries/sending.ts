/** The words that a link travels with. The seal in them stays in the supplier's own mailbox: an anchor outside the server. */
import type { NewEvidenceLink } from "../../trade/types";
import { moment } from "../words";

interface Message {
  title: string;
  text: string;
  /** An address for the mail program, with its words filled in. */
  mail: string;
}

export function messageFor(link: NewEvidenceLink, docket: string, timezone?: string): Message {
  const title = `Docket ${docket}: evidence of the delivery`;
  const text = [
    `What was found when docket ${docket} came in, with readings, limits and photos:`,
    link.url,
    `The link opens until ${moment(link.expires_at, timezone)}, without an account.`,
    `Seal ${link.seal.number} of the record, SHA-256: ${link.seal.sha256}. Keep this message: with it you can tell later whether the record is still the same.`,
  ].join("\n\n");
  // encodeURIComponent writes a blank as %20; some mail programs show the + of a form as it is (RFC 6068).
  const mail = `mailto:${encodeURIComponent(link.mail_to)}?subject=${encodeURIComponent(title)}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
  return { title, text, mail };
}
