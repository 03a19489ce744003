/** The pages that explain the judgements, taken in when the app is built, so that they are there without a signal. */
import { Marked } from "marked";

export interface DocPage {
  slug: string;
  title: string;
  address: string;
  text: string;
}

const FOUND = import.meta.glob<string>(
  ["../../../../inspections/trade/docs/*.md", "../../../../inspections/comparison/docs/*.md", "../../../../imaging/docs/*.md"],
  { query: "?raw", import: "default", eager: true },
);

export const PAGES: DocPage[] = Object.entries(FOUND)
  .map(([file, text]) => asPage(file, text))
  .sort((a, b) => a.title.localeCompare(b.title, "en-GB"));

function asPage(file: string, text: string): DocPage {
  const slug = file.replace(/^.*\/|\.md$/g, "");
  const title = /^#\s+(.+)$/m.exec(text)?.[1]?.trim() ?? slug.replaceAll("-", " ");
  return { slug, title, address: `/how/${slug}`, text };
}

export function pageAt(slug: string): DocPage | null {
  return PAGES.find((page) => page.slug === slug) ?? null;
}

/** Links between the pages go to their addresses here; the text is the project's own and is trusted. */
export function rendered(page: DocPage): string {
  const marked = new Marked({ gfm: true });
  marked.use({
    walkTokens: (token) => {
      if (token.type === "link") token.href = String(token.href).replace(/^(?:.*\/)?([a-z0-9_-]+)\.md(#.*)?$/i, "/how/$1$2");
    },
  });
  return marked.parse(page.text, { async: false });
}
