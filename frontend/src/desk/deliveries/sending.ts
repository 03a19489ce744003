/** The words that a link travels with. The seal in them stays in the supplier's own mailbox: an anchor outside the server. */
import { t } from "../../messages/desk";
import type { NewEvidenceLink } from "../../trade/types";
import { moment } from "../words";

interface Message {
  title: string;
  text: string;
  /** An address for the mail program, with its words filled in. */
  mail: string;
}

export function messageFor(link: NewEvidenceLink, docket: string, timezone?: string): Message {
  const title = t("desk-sending-docket-evidence-delivery", { docket });
  const text = [
    t("desk-sending-what-found-when-docket", { docket }),
    link.url,
    t("desk-sending-link-opens-until-without", { expires_at: moment(link.expires_at, timezone) }),
    t("desk-sending-seal-record-sha-256", { number: link.seal.number, sha256: link.seal.sha256 }),
  ].join("\n\n");
  // encodeURIComponent writes a blank as %20; some mail programs show the + of a form as it is (RFC 6068).
  const mail = `mailto:${encodeURIComponent(link.mail_to)}?subject=${encodeURIComponent(title)}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
  return { title, text, mail };
}
