/** Markdown to HTML. The text is the project's own, taken in at build time: nobody can send text to this place. */
import { Marked } from "marked";

/** Links between the pages go to their addresses in the app. */
export function rendered(text: string): string {
  const marked = new Marked({ gfm: true });
  marked.use({
    walkTokens: (token) => {
      if (token.type === "link") token.href = String(token.href).replace(/^(?:.*\/)?([a-z0-9_-]+)\.md(#.*)?$/i, "/how/$1$2");
    },
  });
  return marked.parse(text, { async: false });
}
