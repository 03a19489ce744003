/**
 * Which words does a person meet? One catalogue in Project Fluent serves the app (here) and the server: `inspections/messages/en`.
 * Mirror of inspections/messages/__init__.py.
 */
import { FluentBundle, FluentNumber, FluentResource } from "@fluent/bundle";
import dock from "@messages/dock.ftl?raw";
import { bracketed, marked } from "./pseudo";

/** Text as it is shown, or a whole number, which chooses the plural form; null is a value that is missing. */
export type Values = Record<string, string | number | null | undefined>;

export class Catalogue {
  readonly #bundle: FluentBundle;
  readonly #isPseudo: boolean;

  constructor(isPseudo = false) {
    this.#isPseudo = isPseudo;
    this.#bundle = new FluentBundle("en-GB", { useIsolating: false, ...(isPseudo ? { transform: marked } : {}) });
  }

  /** Add the messages of one file. */
  add(source: string): void {
    this.#bundle.addResource(new FluentResource(source));
  }

  /** The message of that id with its values; a gap raises while developing and in tests, and is shown in production. */
  say(id: string, values: Values = {}): string {
    const pattern = this.#bundle.getMessage(id)?.value;
    if (!pattern) return missing(id, `no message ${id}`);
    const troubles: Error[] = [];
    const text = this.#bundle.formatPattern(pattern, given(values), troubles);
    const said = this.#isPseudo ? bracketed(text) : text;
    return troubles.length ? missing(said, `${id}: ${troubles.join("; ")}`) : said;
  }
}

function given(values: Values): Record<string, string | FluentNumber> {
  const made: Record<string, string | FluentNumber> = {};
  for (const [name, value] of Object.entries(values)) {
    if (value != null) made[name] = typeof value === "number" ? new FluentNumber(value, { useGrouping: false }) : value;
  }
  return made;
}

function missing(instead: string, trouble: string): string {
  if (import.meta.env.DEV) throw new Error(trouble);
  console.error(trouble);
  return instead;
}

/** The app's own, in the language that this device was set to: `pseudo` shows what was left out of the catalogue. */
export const catalogue = new Catalogue(globalThis.localStorage?.getItem("underlid-language") === "pseudo");
catalogue.add(dock);

/** What the app says under that id. */
export function t(id: string, values?: Values): string {
  return catalogue.say(id, values);
}
