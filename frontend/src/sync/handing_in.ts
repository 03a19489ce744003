/** A phone's file brought in at the desk: photos first, then each entry in the order in which it waited. */
import { readOutboxFile, type FileEntry } from "../store/outbox_file";
import { isHeldByServer, uploadByTus, type Upload } from "./uploads";
import { Refused, request, type Request } from "./wire";

/** What became of an entry; a sentence where the server did not take it. */
export interface Handed {
  kind: FileEntry["kind"] | "photo";
  sentence: string | null;
}
export class NotAnOutbox extends Error {}

/**
 * Bring a file in; every entry is tried, and what came in before counts once.
 *
 * Throws NotAnOutbox when the file is none or is cut off, and NoAnswer when the server cannot be reached.
 */
export async function handIn(
  file: Blob,
  onDone: (one: Handed) => void,
  parts: { request: Request; upload: Upload } = { request, upload: uploadByTus },
): Promise<void> {
  const contents = await readOutboxFile(file);
  if (!contents) throw new NotAnOutbox();
  for (const { sha256, type, bytes } of contents.photos) {
    const sentence = await said(async () => {
      if (!(await isHeldByServer(sha256, parts.request))) await parts.upload({ sha256, type, bytes });
    });
    onDone({ kind: "photo", sentence });
  }
  for (const entry of contents.entries) {
    const sentence = await said(() => parts.request("/sync/handed-in", { method: "POST", body: entry, timeoutMs: 60_000 }));
    onDone({ kind: entry.kind, sentence });
  }
}

async function said(deed: () => Promise<unknown>): Promise<string | null> {
  try {
    await deed();
    return null;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    // a draft of what is signed by now: the signed record has all of it
    return error.code === "DOC-SIGNED" ? null : error.sentence;
  }
}
