/** The page around the check: takes a file, shows what holds and names what does not. Its sentences are on the page. */
import { NotABundle, check } from "./bundle.js";

const file = document.querySelector("#bundle");
const key = document.querySelector("#key");
const anchor = document.querySelector("#anchor");
const result = document.querySelector("#result");
const words = JSON.parse(document.querySelector("#words").textContent);

/** A sentence of the page, its values put in. */
function say(name, values = {}) {
  return words[name].replace(/\{(\w+)\}/g, (_, value) => values[value] ?? "");
}

function line(tag, name, values = {}, className = "") {
  const made = document.createElement(tag);
  made.textContent = say(name, values);
  made.className = className;
  return made;
}

function show(...children) {
  result.replaceChildren(...children);
}

function list(rows) {
  const made = document.createElement("ul");
  made.append(...rows.map((row) => {
    const outcome = row.holds ? (row.isSealed ? "holds" : "not-covered") : "holds-not";
    return line("li", outcome, { file: row.file, what: say(row.what, row) }, row.holds ? "" : "past");
  }));
  return made;
}

/** What the seal that somebody noted has to do with this file; nothing where nothing was noted. */
function noted(told) {
  if (!anchor.value.trim()) return [];
  if (told === undefined) return [line("p", "anchor-unread")];
  if (told === null) return [line("p", "anchor-beyond")];
  return [told ? line("p", "anchor-holds", {}, "fine") : line("p", "anchor-broken", {}, "past")];
}

async function look() {
  const chosen = file.files[0];
  if (!chosen) return;
  show(line("p", "checking"));
  try {
    if (!globalThis.crypto?.subtle) throw new NotABundle("no-https");
    const bytes = new Uint8Array(await chosen.arrayBuffer());
    const checked = await check(bytes, key.value, anchor.value);
    const wrong = checked.told.filter((one) => !one.holds);
    const count = checked.told.filter((one) => one.isSealed).length;
    const files = [...new Set(wrong.map((one) => one.file))].join(", ");
    const folded = document.createElement("details");
    folded.append(line("summary", "every"), list(checked.told));
    show(
      wrong.length ? line("h2", "altered", { files }, "past") : line("h2", "all-hold", { count, docket: checked.docket }, "fine"),
      line("p", wrong.length ? "do-not-rely" : "to-the-byte"), ...noted(checked.anchor), list(wrong),
      line("p", "hash", { hash: checked.seal }, "hash"), line("p", "key", { hash: checked.key }, "hash"), folded,
    );
  } catch (trouble) {
    const isGone = trouble instanceof DOMException;
    if (!isGone && !(trouble instanceof NotABundle)) throw trouble;
    show(line("h2", "none", {}, "past"), line("p", isGone ? "gone" : trouble.message, { file: trouble.file }));
  }
}

for (const field of [file, key, anchor]) field.addEventListener("change", look);
