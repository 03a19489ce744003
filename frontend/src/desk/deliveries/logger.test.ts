import { flushSync, mount, unmount } from "svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { LoggerFile } from "../../trade/types";
import Logger from "./Logger.svelte";
import { clockWords, sourceWords } from "./logger";

const site = { id: "s1", name: "Harbour", code: "HARB", timezone: "Australia/Brisbane" };
const basis = { source: "89/108/EEC Art. 5(1)", known: "read", cv: "CV-5-01", words: "" } as const;
const kept = {
  id: "f1",
  file_name: "trip.csv",
  sha256: "a".repeat(64),
  bytes: 9,
  at: "2026-11-24T20:10:00Z",
  person: "Mia",
  zone_assumed: "UTC",
  answers: { zone: "UTC" },
  method_version: "logger-1",
  file: "/api/logger-files/f1/file",
  is_read_anew: false,
  reading: {
    method: "logger-1",
    file: { readings: 229, unit: "C", column: "Temp", unread: 0, unread_rows: [] },
    remarks: [{ code: "one_gap", text: "One gap of 65 minutes without a reading on the way." }],
    summary: "The logger read -21.0 °C to -8.7 °C.",
    counted: {
      from: "",
      to: "",
      coldest_c: -21,
      warmest_c: -8.7,
      mean_kinetic_c: -19.3,
      gap_minutes: 65,
      life: [],
      limits: [
        {
          limit_c: -15,
          minutes: 49,
          minutes_text: "49 minutes",
          count: 1,
          names: ["transport tolerance"],
          basis: [basis],
          excursions: [
            { from_s: 1, to_s: 2, minutes: 49, warmest_c: -8.7, text: "Wed 25 Nov 2026, 00:34 to 01:23: 49 minutes, warmest -8.7 °C" },
          ],
        },
      ],
    },
    explain: {
      mean_kinetic: "dH = 83.144 kJ/mol",
      mean_kinetic_basis: basis,
      life: "",
      life_basis: basis,
      caution: "A logger tells of the place where it lay.",
    },
    plot: { is_cut: false, shaded: [{ limit_c: -15 }], gaps: [], marks: [] },
  },
  drawings: '<svg class="phone" role="img" aria-label="Drawing of the log."></svg><svg class="wide"></svg>',
} as unknown as LoggerFile;
const ask = {
  name: "zone",
  choices: [
    { value: "Australia/Brisbane", text: "Clock of Harbour (Australia/Brisbane)" },
    { value: "UTC", text: "UTC" },
  ],
};

let shown: ReturnType<typeof mount> | null = null;
afterEach(async () => {
  if (shown) await unmount(shown);
  shown = null;
  document.body.innerHTML = "";
  vi.unstubAllGlobals();
});
type Answer = [number, unknown];
/** Answers each sending in turn; the list is empty. */
async function show(answers: Answer[], listed: LoggerFile[] = []) {
  const sent: FormData[] = [];
  vi.stubGlobal(
    "fetch",
    vi.fn(async (_: string, init: RequestInit) => {
      if (init.method === "POST") sent.push(init.body as FormData);
      const [status, body] = init.method === "POST" ? answers.shift()! : [200, { rows: listed }];
      return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
    }),
  );
  shown = mount(Logger, { target: document.body, props: { delivery: "d1", site } });
  await settled();
  return sent;
}
async function settled() {
  for (let i = 0; i < 5; i++) await new Promise((done) => setTimeout(done));
  flushSync();
}
const text = () => document.body.textContent!.replace(/\s+/g, " ");
async function choose(name = "trip.csv") {
  const input = document.querySelector<HTMLInputElement>("input[type=file]")!;
  Object.defineProperty(input, "files", { configurable: true, value: [new File(["Time;Temp\n"], name)] });
  input.dispatchEvent(new Event("change", { bubbles: true }));
  await settled();
}
async function pick(value: string) {
  const select = document.querySelector("select")!;
  select.value = value;
  select.dispatchEvent(new Event("change", { bubbles: true }));
  await settled();
}
async function press() {
  document.querySelector<HTMLButtonElement>("button.main")!.click();
  await settled();
}

describe("a logger file on the desk", () => {
  it("asks what the file leaves open, the site's clock first, and sends it again with the answer", async () => {
    const sentence = "The times in the logger file have no zone (229 readings). Everything else is kept. Say which clock the logger kept.";
    const sent = await show([
      [422, { code: "LOG-07", sentence, ask }],
      [201, kept],
    ]);
    await choose();
    await press();
    expect(text()).toContain(sentence);
    const select = document.querySelector("select")!;
    expect([...select.options].map((one) => one.text)).toEqual(ask.choices.map((one) => one.text));
    expect(select.value).toBe("Australia/Brisbane");
    await press();
    expect(sent[1]!.get("zone")).toBe("Australia/Brisbane");
    expect((sent[1]!.get("file") as File).name).toBe("trip.csv");
    expect(text()).toContain("The file is kept on the server, untouched, and sealed.");
    expect(text()).toContain("Warmer than −15.0 °C: 49 minutes");
  });
  it("keeps the file chosen when the server cannot be reached, to be sent again", async () => {
    await show([
      [503, {}],
      [200, kept],
    ]);
    await choose();
    await press();
    expect(document.querySelector("[role=alert]")).not.toBeNull();
    await press();
    expect(text()).toContain("trip.csv");
    expect(document.querySelector("[role=alert]")).toBeNull();
  });
  it("keeps what was answered before when the file leaves a second thing open, and sends the choice made", async () => {
    const unit = {
      name: "unit",
      choices: [
        { value: "C", text: "°C" },
        { value: "F", text: "°F" },
      ],
    };
    const sent = await show([
      [422, { code: "LOG-04", sentence: "Choose the unit.", ask: unit }],
      [422, { code: "LOG-07", sentence: "Say which clock.", ask }],
      [201, kept],
    ]);
    await choose();
    await press();
    await pick("F");
    await press();
    expect(text()).toContain("Which clock did the logger keep?");
    await pick("UTC");
    await press();
    expect(sent.map((form) => [form.get("unit"), form.get("zone")])).toEqual([
      [null, null],
      ["F", null],
      ["F", "UTC"],
    ]);
    expect(document.querySelector("select")).toBeNull();
  });
  it("forgets the answers with the file that they were for", async () => {
    const sent = await show([
      [422, { code: "LOG-07", sentence: "Say which clock.", ask }],
      [201, kept],
    ]);
    await choose();
    await press();
    expect(document.querySelector("select")).not.toBeNull();
    await choose("other.csv");
    expect(document.querySelector("select")).toBeNull();
    expect(document.querySelector("[role=alert]")).toBeNull();
    await press();
    expect(sent[1]!.get("zone")).toBeNull();
    expect((sent[1]!.get("file") as File).name).toBe("other.csv");
  });
  it("takes a file that is dropped on it, and shows where it may be dropped", async () => {
    const sent = await show([[201, kept]]);
    const place = document.querySelector<HTMLElement>(".drop")!;
    place.dispatchEvent(new Event("dragover", { bubbles: true, cancelable: true }));
    flushSync();
    expect(place.classList.contains("over")).toBe(true);
    const drop = new Event("drop", { bubbles: true, cancelable: true });
    Object.assign(drop, { dataTransfer: { files: [new File(["Time;Temp\n"], "dropped.csv")] } });
    place.dispatchEvent(drop);
    await settled();
    // Else the browser would leave the page and open the file.
    expect(drop.defaultPrevented).toBe(true);
    expect(place.classList.contains("over")).toBe(false);
    await press();
    expect((sent[0]!.get("file") as File).name).toBe("dropped.csv");
  });
  it("sends when the goods left, where the papers say", async () => {
    const sent = await show([[201, kept]]);
    const left = document.querySelector<HTMLInputElement>("input[type=datetime-local]")!;
    left.value = "2026-11-24T18:00";
    left.dispatchEvent(new Event("input", { bubbles: true }));
    await choose();
    await press();
    expect(sent[0]!.get("left_at")).toBe("2026-11-24T18:00");
  });
  it("says why a file was not kept, asks nothing that would not help, and lets it be sent again", async () => {
    const sentence = "The file is larger than 5 MB. Nothing was kept. Export the days of this delivery only.";
    await show([[413, { code: "TOO-LARGE", sentence }]]);
    await choose();
    await press();
    expect(document.querySelector("[role=alert]")!.textContent).toBe(sentence);
    expect(document.querySelector("select")).toBeNull();
    expect(document.querySelector<HTMLButtonElement>("button.main")!.disabled).toBe(false);
    expect(text()).not.toContain("is kept on the server");
  });
  it("sends a file once, however often the button is pressed while it is read", async () => {
    const sent = await show([[201, kept]]);
    await choose();
    const button = document.querySelector<HTMLButtonElement>("button.main")!;
    button.click();
    flushSync();
    expect([button.disabled, button.textContent]).toEqual([true, "Reading the file …"]);
    expect(document.querySelector<HTMLInputElement>("input[type=file]")!.disabled).toBe(true);
    button.click();
    await settled();
    expect(sent).toHaveLength(1);
    expect(document.querySelector("button.main")).toBeNull();
  });
  it("shows a file that was there already once, and folds away its earlier reading when it is read anew", async () => {
    await show(
      [
        [200, kept],
        [201, { ...kept, id: "f2", answers: { zone: "Australia/Brisbane" } }],
      ],
      [kept],
    );
    await choose();
    await press();
    expect(document.querySelectorAll("section article")).toHaveLength(1);
    await choose();
    await press();
    expect(document.querySelectorAll("section > article")).toHaveLength(1);
    expect(text()).toContain("trip.csv: an earlier reading, read anew below");
  });
  it("shows findings, sources, caution and the drawing with its words", async () => {
    await show([], [kept]);
    expect(text()).toContain("Added after signing, Wed, 25 Nov 2026, 06:10, by Mia.");
    expect(text()).toContain("00:34 to 01:23: 49 minutes, warmest −8.7 °C.");
    expect(text()).toContain("Source: 89/108/EEC Art. 5(1)");
    expect(text()).toContain("A logger tells of the place where it lay.");
    expect(document.querySelector("figure svg.phone[role=img]")!.getAttribute("aria-label")).toBe("Drawing of the log.");
    expect(text()).toContain("Shaded: warmer than −15.0 °C.");
    expect(document.querySelector<HTMLAnchorElement>("a[download]")!.getAttribute("href")).toBe("/api/logger-files/f1/file");
  });
  it("folds away a reading that was made anew", async () => {
    await show([], [{ ...kept, id: "f0", is_read_anew: true }, kept]);
    expect(document.querySelectorAll("section > details.keep-closed")).toHaveLength(1);
    expect(text()).toContain("an earlier reading, read anew below");
  });
});

describe("its words", () => {
  it("names each source once", () => {
    expect(sourceWords([basis, basis])).toBe("Source: 89/108/EEC Art. 5(1) (read in the source).");
  });
  it("tells whose clock it went by", () => {
    expect(clockWords({})).toBe("The file’s times carry their zone.");
    expect(clockWords({ zone: "UTC", unit: "F", day_order: "day_first" })).toContain("clock of UTC");
  });
});
