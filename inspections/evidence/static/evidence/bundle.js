/** Does an evidence bundle hold? Answered here, from the file alone: nothing is sent anywhere.
 *
 * The same checks, in the same order, as the command `verify_bundle` (inspections/evidence/bundle_check.py): signatures
 * (Ed25519, RFC 8032, by WebCrypto), SHA-256 of records, keys, photos, logger files and files of claims.
 * Zip by APPNOTE.TXT 6.3, stored and deflated parts; no encryption, no Zip64.
 */
const MOST_BYTES = 1024 ** 3;
const STORED = 0;
const DEFLATED = 8;
const utf8 = new TextDecoder("utf-8", { fatal: true });

/** The file is no evidence bundle, or cannot be read here; the message is the name of the sentence that says why. */
export class NotABundle extends Error {
  constructor(why, file = "") {
    super(why);
    this.file = file;
  }
}

/** What was checked, in order: `file` is the part it is about, `what` the name of the sentence that says what was checked
 * (of the seal with that `number` and `kind`), `isSealed` false of what no seal covers.
 *
 * `anchor` says whether the seals here have the one that somebody `noted`: null where they do not reach it, undefined
 * where nothing was noted that names a seal.
 */
export async function check(bytes, expectedKey = "", noted = "") {
  const parts = await unzipped(bytes);
  const folders = ["", ...[...parts.keys()].flatMap((name) => /^(addendum-[1-9][0-9]*\/)seal\.json$/.exec(name)?.[1] ?? [])];
  folders.sort((a, b) => Number(/\d+/.exec(a) ?? 0) - Number(/\d+/.exec(b) ?? 0));
  const told = [];
  const records = [];
  const main = await sha256(part(parts, "seal.json"));
  for (const folder of folders) {
    told.push(...(await seal(parts, folder, main, expectedKey)));
    records.push(parsed(parts, `${folder}record.json`));
  }
  const hashes = (list) => new Set(list.filter(Boolean));
  const photos = hashes((records[0]?.photos ?? []).map((one) => one.shared_sha256));
  const loggers = hashes(records.slice(1).map((one) => one?.logger_file?.sha256));
  const claimed = hashes(records.slice(1).flatMap((one) => (one?.entry?.files ?? []).map((file) => file.sha256)));
  told.push(...(await named(parts, "photos/", photos)), ...(await named(parts, "logger-files/", loggers)));
  told.push(...(await named(parts, "claim-files/", claimed)), ...beside(parts, folders));
  return { told, seal: main, key: await sha256(der(part(parts, "public-key.pem"))), docket: records[0]?.document?.docket_number ?? "", anchor: await anchored(parts, folders, noted) };
}

/** As `anchors.py`: a seal's own hash will do, and that which the seal after it names as the one before. */
async function anchored(parts, folders, noted) {
  const found = /seal-([1-9][0-9]{0,9})-([0-9a-f]{16,64})$/.exec(noted.trim().toLowerCase());
  if (!found) return undefined;
  const hashes = [];
  for (const folder of folders) {
    const said = parsed(parts, `${folder}seal.json`);
    if (said?.number === Number(found[1])) hashes.push(await sha256(part(parts, `${folder}seal.json`)));
    if (said?.number === Number(found[1]) + 1) hashes.push(said.previous_sha256);
  }
  return hashes.length ? hashes.every((hash) => hash.startsWith(found[2])) : null;
}

async function seal(parts, folder, main, expectedKey) {
  const [statementFile, recordFile, keyFile] = ["seal.json", "record.json", "public-key.pem"].map((name) => folder + name);
  const said = parsed(parts, statementFile);
  if (!said) return [{ file: statementFile, what: "readable", holds: false, isSealed: true }];
  const spki = der(part(parts, keyFile));
  const told = [
    [statementFile, "signed", await isSigned(part(parts, statementFile), part(parts, `${folder}seal.sig`), spki)],
    [recordFile, "names-record", (await sha256(part(parts, recordFile))) === said.content_sha256],
    [keyFile, "names-key", (await sha256(spki)) === said.public_key_id],
  ];
  if (folder) told.push([recordFile, "adds", parsed(parts, recordFile)?.delivery_seal_sha256 === main]);
  if (expectedKey) told.push([keyFile, "key-expected", (await sha256(spki)) === expectedKey.trim().toLowerCase()]);
  return told.map(([file, what, holds]) => ({ file, what, number: said.number, kind: said.kind, holds, isSealed: true }));
}

/** Files named by their own hash, each of which a seal must name; and those that a seal names and that are not here. */
async function named(parts, folder, sealed) {
  const told = [];
  const found = new Set(); // hashes of the files, and those that their names say: what is altered is not missing too
  for (const file of [...parts.keys()].filter((name) => name.startsWith(folder) && !name.endsWith("/")).sort()) {
    const actual = await sha256(parts.get(file));
    const said = /^([0-9a-f]{64})\.[a-z]+$/.exec(file.slice(folder.length))?.[1];
    told.push({ file, what: "its-name", holds: said === actual, isSealed: true });
    told.push({ file, what: "sealed", holds: sealed.has(actual), isSealed: true });
    found.add(actual).add(said);
  }
  for (const missing of [...sealed].filter((one) => !found.has(one)).sort())
    told.push({ file: `${folder}${missing}`, what: "there", holds: false, isSealed: true });
  return told;
}

/** Parts that no seal covers: said, so that nobody relies on them. */
function beside(parts, folders) {
  const sealed = new Set(folders.flatMap((folder) => ["record.json", "seal.json", "seal.sig", "public-key.pem"].map((name) => folder + name)));
  const isNamed = (name) => /^(photos|logger-files|claim-files)\//.test(name);
  return [...parts.keys()]
    .filter((name) => !sealed.has(name) && !isNamed(name) && !name.endsWith("/"))
    .map((file) => ({ file, what: "beside", holds: true, isSealed: false }));
}

function part(parts, name) {
  const found = parts.get(name);
  if (!found) throw new NotABundle("part-missing", name);
  return found;
}

function parsed(parts, name) {
  try {
    return JSON.parse(utf8.decode(part(parts, name)));
  } catch (trouble) {
    if (trouble instanceof NotABundle) throw trouble;
    return null;
  }
}

async function isSigned(statement, signature, spki) {
  try {
    const key = await crypto.subtle.importKey("spki", spki, { name: "Ed25519" }, false, ["verify"]);
    return await crypto.subtle.verify({ name: "Ed25519" }, key, signature, statement);
  } catch (trouble) {
    if (trouble?.name === "NotSupportedError")
      throw new NotABundle("no-ed25519");
    return false;
  }
}

async function sha256(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function der(pem) {
  try {
    const inner = utf8.decode(pem).replace(/-----(BEGIN|END) PUBLIC KEY-----|\s/g, "");
    return Uint8Array.from(atob(inner), (letter) => letter.charCodeAt(0));
  } catch {
    return new Uint8Array();
  }
}

/** The parts of a zip file by name. */
async function unzipped(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = bytes.length - 22;
  while (at >= 0 && at > bytes.length - 65_558 && view.getUint32(at, true) !== 0x06054b50) at--;
  if (at < 0 || view.getUint32(at, true) !== 0x06054b50) throw new NotABundle("no-zip");
  const count = view.getUint16(at + 10, true);
  const parts = new Map();
  let entry = view.getUint32(at + 16, true);
  let total = 0;
  for (let number = 0; number < count; number++) {
    if (entry + 46 > bytes.length || view.getUint32(entry, true) !== 0x02014b50) throw new NotABundle("list-damaged");
    const [flags, method] = [view.getUint16(entry + 8, true), view.getUint16(entry + 10, true)];
    const [packed, size] = [view.getUint32(entry + 20, true), view.getUint32(entry + 24, true)];
    const [nameLength, extra, comment] = [28, 30, 32].map((offset) => view.getUint16(entry + offset, true));
    const local = view.getUint32(entry + 42, true);
    const name = utf8.decode(bytes.subarray(entry + 46, entry + 46 + nameLength));
    total += size;
    if (flags & 1 || ![STORED, DEFLATED].includes(method)) throw new NotABundle("packed-otherwise", name);
    if (total > MOST_BYTES) throw new NotABundle("too-large");
    if (parts.has(name)) throw new NotABundle("name-twice", name);
    if (local + 30 > bytes.length) throw new NotABundle("cut-off", name);
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const content = bytes.subarray(from, from + packed);
    parts.set(name, method === STORED ? content : await inflated(content, size, name));
    entry += 46 + nameLength + extra + comment;
  }
  return parts;
}

/** A deflated part; it is given up as soon as it grows beyond the size that the list of parts tells. */
async function inflated(content, size, name) {
  const reader = new Blob([content]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const whole = new Uint8Array(size);
  let filled = 0;
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      if (filled + read.value.length > size) throw new NotABundle("larger", name);
      whole.set(read.value, filled);
      filled += read.value.length;
    }
  } catch (trouble) {
    throw trouble instanceof NotABundle ? trouble : new NotABundle("not-unpacked", name);
  }
  return whole.subarray(0, filled);
}
