import { expect, test, vi } from "vitest";
import { NoAnswer, Refused, request } from "./wire";

function answering(body: string, init: ResponseInit): void {
  vi.stubGlobal(
    "fetch",
    vi.fn(async () => new Response(body, init)),
  );
}
const json = { "Content-Type": "application/json" };

test("a refusal keeps the server's own sentence and facts", async () => {
  answering(JSON.stringify({ code: "DOC-SIGNED", sentence: "It is signed.", facts: { a: 1 } }), { status: 409, headers: json });
  await expect(request("/sync/documents/1", { method: "PUT", body: {} })).rejects.toMatchObject({
    status: 409,
    code: "DOC-SIGNED",
    sentence: "It is signed.",
    facts: { a: 1 },
  });
});

test("an answer without a sentence, such as a proxy's, gets one", async () => {
  answering("<h1>Bad gateway</h1>", { status: 502, headers: { "Content-Type": "text/html", "Retry-After": "7" } });
  const refused = await request("/sync/reference").catch((error: unknown) => error as Refused);
  expect(refused).toMatchObject({ code: "HTTP-502", retryAfter: 7 });
  expect((refused as Refused).sentence).toContain("kept on this phone");
});

test("no network and a cut-off answer are both no answer", async () => {
  vi.stubGlobal(
    "fetch",
    vi.fn(async () => Promise.reject(new TypeError("offline"))),
  );
  await expect(request("/sync/reference")).rejects.toBeInstanceOf(NoAnswer);
  answering('{"revision": 1', { status: 200, headers: json });
  await expect(request("/sync/reference")).rejects.toBeInstanceOf(NoAnswer);
});

test("a write carries the CSRF cookie's value, a read does not", async () => {
  document.cookie = "csrftoken=tok";
  answering("{}", { status: 200, headers: json });
  await request("/sync/documents/1", { method: "PUT", body: {} });
  await request("/sync/reference");
  const calls = vi.mocked(fetch).mock.calls.map(([, init]) => (init!.headers as Record<string, string>)["X-CSRFToken"]);
  expect(calls).toEqual(["tok", undefined]);
});

test("a stale CSRF cookie is fetched anew and the same request goes once more", async () => {
  const answers = [
    new Response(JSON.stringify({ code: "PAGE-STALE" }), { status: 403, headers: json }),
    new Response("{}", { status: 200, headers: json }),
    new Response(JSON.stringify({ revision: 2 }), { status: 200, headers: json }),
  ];
  vi.stubGlobal(
    "fetch",
    vi.fn(async () => answers.shift()!),
  );
  expect((await request("/sync/documents/1", { method: "PUT", body: {} })).body).toEqual({ revision: 2 });
  expect(vi.mocked(fetch).mock.calls.map(([path]) => path)).toEqual(["/sync/documents/1", "/api/session", "/sync/documents/1"]);
});
