import { afterEach, describe, expect, it, vi } from "vitest";
import { NoAnswer } from "../sync/wire";
import * as api from "./api";
import { Loaded, asTrouble } from "./loaded.svelte";

function answer(status: number, body: unknown, type = "application/json"): Response {
  return new Response(typeof body === "string" ? body : JSON.stringify(body), { status, headers: { "Content-Type": type } });
}
const fetched = (response: Response | Error) => {
  const spy = vi.fn(async (..._: Parameters<typeof fetch>) => {
    if (response instanceof Error) throw response;
    return response;
  });
  vi.stubGlobal("fetch", spy);
  return spy;
};
afterEach(() => vi.unstubAllGlobals());

describe("asking the server", () => {
  it("leaves empty filters out of the address", async () => {
    const spy = fetched(answer(200, { rows: [] }));
    await api.deliveries({ q: "DN 5/5", site: "", page: "2" });
    expect(spy.mock.calls[0]![0]).toBe("/api/deliveries?q=DN+5%2F5&page=2");
  });
  it("sends a change with the token of the page, and a table as it is", async () => {
    document.cookie = "csrftoken=abc123";
    const spy = fetched(answer(200, {}));
    await api.importRows("orders", new Blob(["number"]), true);
    const [path, asked] = spy.mock.calls[0]!;
    expect(path).toBe("/api/imports/orders?dry_run=1");
    expect(asked!.headers).toMatchObject({ "X-CSRFToken": "abc123", "Content-Type": "text/csv" });
    expect(asked!.body).toBeInstanceOf(Blob);
  });
  it("tells a refusal in the server's own sentence", async () => {
    fetched(answer(403, { code: "NOT-YOURS", sentence: "This belongs to a site that you do not look after.", facts: {} }));
    await expect(api.delivery("x")).rejects.toMatchObject({
      code: "NOT-YOURS",
      sentence: "This belongs to a site that you do not look after.",
    });
  });
  it("finds a sentence for an answer that brings none", async () => {
    fetched(answer(502, "<h1>Bad gateway</h1>", "text/html"));
    const trouble = await api.limits().catch(asTrouble);
    expect(trouble).toMatchObject({ kind: "refused", sentence: expect.stringContaining("What was saved before is safe.") });
  });
  it("calls no network and a broken answer unreachable", async () => {
    for (const response of [new TypeError("no network"), answer(200, '{"rows": [')]) {
      fetched(response);
      expect(await api.limits().catch(asTrouble)).toMatchObject({ kind: "unreachable" });
    }
  });
  it("knows signed out from refused", async () => {
    fetched(answer(401, { code: "SIGN-IN-FIRST", sentence: "You are not signed in." }));
    expect(await api.limits().catch(asTrouble)).toMatchObject({ kind: "signed_out" });
  });
  it("does not dress up a fault of its own as trouble with the network", () => {
    expect(() => asTrouble(new RangeError("a bug"))).toThrow("a bug");
  });
});

describe("something loaded", () => {
  it("drops a late answer to an old question", async () => {
    const loaded = new Loaded<string>();
    let answerOld = (_: string) => {};
    const old = loaded.load(() => new Promise<string>((resolve) => (answerOld = resolve)));
    await loaded.load(async () => "new");
    answerOld("old");
    await old;
    expect([loaded.value, loaded.isLoading]).toEqual(["new", false]);
  });
  it("keeps what was known when the next question fails", async () => {
    const loaded = new Loaded<string>();
    await loaded.load(async () => "known");
    await loaded.load(async () => {
      throw new NoAnswer("gone");
    });
    expect(loaded.value).toBe("known");
    expect(loaded.trouble?.kind).toBe("unreachable");
  });
});
