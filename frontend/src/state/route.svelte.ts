/** Which page is open, kept in the address, so that the phone's back key walks back a question. */
export class Route {
  #path = $state(location.pathname);

  get path(): string {
    return this.#path;
  }

  get parts(): string[] {
    return this.#path.split("/").filter(Boolean).map(decodeURIComponent);
  }

  start(): () => void {
    const onPop = () => (this.#path = location.pathname);
    addEventListener("popstate", onPop);
    return () => removeEventListener("popstate", onPop);
  }

  go(path: string, { replace = false }: { replace?: boolean } = {}): void {
    if (path === location.pathname) replace = true;
    history[replace ? "replaceState" : "pushState"](null, "", path);
    this.#path = location.pathname;
    scrollTo(0, 0);
  }
}

export const route = new Route();
/** The page of a procedure done for one carton. */
export function procedurePath(place: { delivery_id: string; purpose: string; line_id: string; position: number }): string {
  return walkPath(place.delivery_id, ["by-steps", place.purpose, place.line_id, place.position].join("~"));
}
export const walkPath = (id: string, step = ""): string => `/walk/${id}${step ? `/${encodeURIComponent(step)}` : ""}`;
