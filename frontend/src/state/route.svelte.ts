/** Which page is open, kept in the address, so that it can be linked and reloaded and the back key walks back a question. */
export class Route {
  #path = $state("/");
  #query = $state.raw(new URLSearchParams());

  constructor() {
    this.#read();
  }

  get path(): string {
    return this.#path;
  }
  get query(): URLSearchParams {
    return this.#query;
  }
  get parts(): string[] {
    return this.#path.split("/").filter(Boolean).map(decodeURIComponent);
  }

  /** Follow the browser's back and forward; gives the way to stop. */
  start(): () => void {
    const read = () => this.#read();
    read();
    addEventListener("popstate", read);
    return () => removeEventListener("popstate", read);
  }

  go(address: string, { replace = false }: { replace?: boolean } = {}): void {
    if (address === location.pathname + location.search) replace = true;
    history[replace ? "replaceState" : "pushState"](null, "", address);
    this.#read();
    scrollTo(0, 0);
  }

  /** Change some of the query and nothing else; an empty value takes its name out. */
  ask(changes: Record<string, string>): void {
    const next = new URLSearchParams(this.#query);
    for (const [name, value] of Object.entries(changes)) {
      if (value) next.set(name, value);
      else next.delete(name);
    }
    history.replaceState(null, "", this.#path + (next.size ? `?${next}` : ""));
    this.#read();
  }

  #read(): void {
    this.#path = location.pathname.replace(/(.)\/+$/, "$1");
    this.#query = new URLSearchParams(location.search);
  }
}

export const route = new Route();
/** The page of a procedure done for one carton. */
export function procedurePath(place: { delivery_id: string; purpose: string; line_id: string; position: number }): string {
  return walkPath(place.delivery_id, ["by-steps", place.purpose, place.line_id, place.position].join("~"));
}
export const walkPath = (id: string, step = ""): string => `/walk/${id}${step ? `/${encodeURIComponent(step)}` : ""}`;
