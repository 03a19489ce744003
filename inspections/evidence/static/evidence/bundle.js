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

/** The file is no evidence bundle, or cannot be read here; the message says why in a sentence. */
export class NotABundle extends Error {}

/** What was checked, in order: `file` is the part it is about, `isSealed` false of what no seal covers. */
export async function check(bytes, expectedKey = "") {
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
  return { told, seal: main, key: await sha256(der(part(parts, "public-key.pem"))), docket: records[0]?.document?.docket_number ?? "" };
}

async function seal(parts, folder, main, expectedKey) {
  const [statementFile, recordFile, keyFile] = ["seal.json", "record.json", "public-key.pem"].map((name) => folder + name);
  const said = parsed(parts, statementFile);
  if (!said) return [{ file: statementFile, what: "is a statement that can be read", holds: false, isSealed: true }];
  const spki = der(part(parts, keyFile));
  const name = `seal ${said.number} (${said.kind})`;
  const told = [
    [statementFile, `${name} is signed by the holder of the key`, await isSigned(part(parts, statementFile), part(parts, `${folder}seal.sig`), spki)],
    [recordFile, `is the record that ${name} names`, (await sha256(part(parts, recordFile))) === said.content_sha256],
    [keyFile, `is the key that ${name} names`, (await sha256(spki)) === said.public_key_id],
  ];
  if (folder) told.push([recordFile, `${name} adds to this delivery`, parsed(parts, recordFile)?.delivery_seal_sha256 === main]);
  if (expectedKey) told.push([keyFile, `the key of ${name} is the one expected`, (await sha256(spki)) === expectedKey.trim().toLowerCase()]);
  return told.map(([file, what, holds]) => ({ file, what, holds, isSealed: true }));
}

/** Files named by their own hash, each of which a seal must name; and those that a seal names and that are not here. */
async function named(parts, folder, sealed) {
  const told = [];
  const found = new Set(); // hashes of the files, and those that their names say: what is altered is not missing too
  for (const file of [...parts.keys()].filter((name) => name.startsWith(folder) && !name.endsWith("/")).sort()) {
    const actual = await sha256(parts.get(file));
    const said = /^([0-9a-f]{64})\.[a-z]+$/.exec(file.slice(folder.length))?.[1];
    told.push({ file, what: "is the file that its name says", holds: said === actual, isSealed: true });
    told.push({ file, what: "was sealed", holds: sealed.has(actual), isSealed: true });
    found.add(actual).add(said);
  }
  for (const missing of [...sealed].filter((one) => !found.has(one)).sort())
    told.push({ file: `${folder}${missing}`, what: "is in the bundle", holds: false, isSealed: true });
  return told;
}

/** Parts that no seal covers: said, so that nobody relies on them. */
function beside(parts, folders) {
  const sealed = new Set(folders.flatMap((folder) => ["record.json", "seal.json", "seal.sig", "public-key.pem"].map((name) => folder + name)));
  const isNamed = (name) => /^(photos|logger-files|claim-files)\//.test(name);
  return [...parts.keys()]
    .filter((name) => !sealed.has(name) && !isNamed(name) && !name.endsWith("/"))
    .map((file) => ({ file, what: "is beside the seal: whether it was altered cannot be told", holds: true, isSealed: false }));
}

function part(parts, name) {
  const found = parts.get(name);
  if (!found) throw new NotABundle(`A part is missing: ${name}.`);
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
      throw new NotABundle("This browser cannot check Ed25519 signatures. Use a newer one, or one of the other two ways.");
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
  if (at < 0 || view.getUint32(at, true) !== 0x06054b50) throw new NotABundle("It cannot be read as a zip file.");
  const count = view.getUint16(at + 10, true);
  const parts = new Map();
  let entry = view.getUint32(at + 16, true);
  let total = 0;
  for (let number = 0; number < count; number++) {
    if (entry + 46 > bytes.length || view.getUint32(entry, true) !== 0x02014b50) throw new NotABundle("Its list of parts is damaged.");
    const [flags, method] = [view.getUint16(entry + 8, true), view.getUint16(entry + 10, true)];
    const [packed, size] = [view.getUint32(entry + 20, true), view.getUint32(entry + 24, true)];
    const [nameLength, extra, comment] = [28, 30, 32].map((offset) => view.getUint16(entry + offset, true));
    const local = view.getUint32(entry + 42, true);
    const name = utf8.decode(bytes.subarray(entry + 46, entry + 46 + nameLength));
    total += size;
    if (flags & 1 || ![STORED, DEFLATED].includes(method)) throw new NotABundle(`${name} is packed in a way that is not read here.`);
    if (total > MOST_BYTES) throw new NotABundle("It unpacks to more than 1 GB.");
    if (parts.has(name)) throw new NotABundle(`Two parts have the name ${name}.`);
    if (local + 30 > bytes.length) throw new NotABundle(`${name} is cut off.`);
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
      if (filled + read.value.length > size) throw new NotABundle(`${name} is larger than it says.`);
      whole.set(read.value, filled);
      filled += read.value.length;
    }
  } catch (trouble) {
    throw trouble instanceof NotABundle ? trouble : new NotABundle(`${name} cannot be unpacked.`);
  }
  return whole.subarray(0, filled);
}
