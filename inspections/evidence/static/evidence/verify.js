/** The page around the check: takes a file, shows what holds and names what does not. */
import { NotABundle, check } from "./bundle.js";

const file = document.querySelector("#bundle");
const key = document.querySelector("#key");
const result = document.querySelector("#result");

function line(tag, words, className = "") {
  const made = document.createElement(tag);
  made.textContent = words;
  made.className = className;
  return made;
}

function show(...children) {
  result.replaceChildren(...children);
}

function list(rows, words) {
  const made = document.createElement("ul");
  made.append(...rows.map((row) => line("li", words(row), row.holds ? "" : "past")));
  return made;
}

async function look() {
  const chosen = file.files[0];
  if (!chosen) return;
  show(line("p", "Checking …"));
  try {
    if (!globalThis.crypto?.subtle) throw new NotABundle("This page was not opened over HTTPS, and browsers check no signatures then. Open it over HTTPS.");
    const bytes = new Uint8Array(await chosen.arrayBuffer());
    const { told, seal, key: number, docket } = await check(bytes, key.value);
    const wrong = told.filter((one) => !one.holds);
    const sealed = told.filter((one) => one.isSealed);
    const changed = [...new Set(wrong.map((one) => one.file))];
    const head = wrong.length
      ? line("h2", `Altered: ${changed.join(", ")}`, "past")
      : line("h2", `All ${sealed.length} checks hold: docket ${docket}`, "fine");
    const folded = document.createElement("details");
    folded.append(line("summary", "Every check"), list(told, (one) => `${one.file}: ${one.what}: ${one.holds ? (one.isSealed ? "holds" : "not covered") : "does not hold"}`));
    const lead = wrong.length
      ? line("p", "Do not rely on this file. Ask for another copy, and compare the hash of the seal with one that you kept.")
      : line("p", "The parts are, to the last byte, those that were sealed by the holder of the key. That does not show that what was entered is right.");
    show(head, lead, list(wrong, (one) => `${one.file}: ${one.what}: does not hold`), line("p", `Hash of the delivery’s seal: ${seal}`, "hash"), line("p", `Number of the key: ${number}`, "hash"), folded);
  } catch (trouble) {
    const isGone = trouble instanceof DOMException;
    if (!isGone && !(trouble instanceof NotABundle)) throw trouble;
    const why = isGone ? "The file was changed or moved since it was chosen. Choose it again." : trouble.message;
    show(line("h2", "This is no evidence file that could be checked", "past"), line("p", why));
  }
}

file.addEventListener("change", look);
key.addEventListener("change", look);
