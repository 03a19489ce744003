import { describe, expect, it } from "vitest";
import { EXPLAINED, docFor } from "./explained";
import { allPages, hasPage, pageAt } from "./pages";
import { rendered } from "./render";

describe("the pages that explain", () => {
  it("come with the build, under their own titles", async () => {
    const page = await pageAt("comparing-suppliers");
    expect(page?.title).toBe("Comparing suppliers fairly");
    expect((await allPages()).map((one) => one.slug)).toContain("comparing-suppliers");
    expect(await pageAt("no-such-page")).toBeNull();
  });
  it("link to each other inside the app, and outward as written", () => {
    const html = rendered("[glaze](glaze.md#net) [plan](../docs/sampling.md) [law](https://example.org/a.html)");
    expect(html).toContain('href="/how/glaze#net"');
    expect(html).toContain('href="/how/sampling"');
    expect(html).toContain('href="https://example.org/a.html"');
  });
  it("are linked from a limit only when they are there", () => {
    for (const limit of [...Object.keys(EXPLAINED), "product_c.reject", "unheard_of", null]) {
      const found = docFor(limit);
      if (found) expect(hasPage(found.address.replace("/how/", ""))).toBe(true);
    }
    expect(docFor("unheard_of")).toBeNull();
  });
});
