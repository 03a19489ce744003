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
export const walkPath = (id: string, step = ""): string =>
  `/walk/${id}${step ? `/${encodeURIComponent(step)}` : ""}`;
