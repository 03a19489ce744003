/** The pages that explain the judgements, taken in when the app is built, so that they are there without a signal. */

const FILES = import.meta.glob<string>(
  ["../../../../inspections/trade/docs/*.md", "../../../../inspections/comparison/docs/*.md", "../../../../imaging/docs/*.md"],
  { query: "?raw", import: "default" },
);
const BY_SLUG = new Map(Object.entries(FILES).map(([file, load]) => [file.replace(/^.*\/|\.md$/g, ""), load]));

export interface DocPage {
  slug: string;
  title: string;
  address: string;
  text: string;
}

export function hasPage(slug: string): boolean {
  return BY_SLUG.has(slug);
}

export async function pageAt(slug: string): Promise<DocPage | null> {
  const load = BY_SLUG.get(slug);
  return load ? asPage(slug, await load()) : null;
}

export async function allPages(): Promise<DocPage[]> {
  const pages = await Promise.all([...BY_SLUG].map(async ([slug, load]) => asPage(slug, await load())));
  return pages.sort((a, b) => a.title.localeCompare(b.title, "en-GB"));
}

function asPage(slug: string, text: string): DocPage {
  const title = /^#\s+(.+)$/m.exec(text)?.[1]?.trim() ?? slug.replaceAll("-", " ");
  return { slug, title, address: `/how/${slug}`, text };
}
