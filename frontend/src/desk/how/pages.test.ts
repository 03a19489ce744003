import { describe, expect, it } from "vitest";
import shipped from "@trade-data/limits.json";
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
  it("show a worked example as a listing", async () => {
    const html = rendered("Before.\n\n>>> 1 +\\\n... 1\n2\n\n>>> 3\n3\n\nAfter > all.\n");
    expect(html).not.toContain("<blockquote>");
    expect(html.match(/<pre><code>/g)).toHaveLength(2);
    expect(html).toContain("&gt;&gt;&gt; 3\n3");
    for (const page of await allPages()) expect(rendered(page.text), page.slug).not.toMatch(/<blockquote>\s*<blockquote>/);
  });
  it("set numbers below zero with a true minus sign, but not in a listing, which has to run", () => {
    const html = rendered("Held at **-18 °C** (-0.4 °F), 10-12, `-9.5`.\n\n>>> -1.5\n-1.5\n");
    expect(html).toContain("<strong>−18 °C</strong> (−0.4 °F), 10-12, <code>-9.5</code>");
    expect(html).toContain("&gt;&gt;&gt; -1.5\n-1.5");
  });
  it("cover every judgement, each with a worked example and its sources", async () => {
    for (const slug of ["counts", "glaze", "sampling", "temperature", "condition", "species", "labels", "limits", "verdict"]) {
      const page = await pageAt(slug);
      expect(page, slug).not.toBeNull();
      expect(page!.text, slug).toMatch(/^>>> /m);
      expect(page!.text, slug).toMatch(/from memory|common practice/);
    }
  });
  it("are linked from a limit only when they are there", () => {
    for (const limit of [...Object.keys(EXPLAINED), "product_c.reject", "unheard_of", null]) {
      const found = docFor(limit);
      if (found) expect(hasPage(found.address.replace("/how/", ""))).toBe(true);
    }
    expect(docFor("unheard_of")).toBeNull();
    for (const { code } of shipped.limits) expect(docFor(code), code).not.toBeNull();
  });
});
