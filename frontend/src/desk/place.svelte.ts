/** Where in the desk one is: the address is the state, so every screen can be linked, reloaded and gone back to. */

class Place {
  #path = $state("/desk");
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

  /** Follow the browser's back and forward for as long as the desk is shown; gives the way to stop. */
  follow(): () => void {
    const read = () => this.#read();
    read();
    window.addEventListener("popstate", read);
    return () => window.removeEventListener("popstate", read);
  }

  go(address: string): void {
    history.pushState(null, "", address);
    // The app around the desk listens to the same event, so both always agree on where one is.
    window.dispatchEvent(new PopStateEvent("popstate"));
    window.scrollTo(0, 0);
  }

  /** Change some of the query and nothing else; an empty value takes its name out. */
  ask(changes: Record<string, string>): void {
    const next = new URLSearchParams(this.#query);
    for (const [name, value] of Object.entries(changes)) {
      if (value) next.set(name, value);
      else next.delete(name);
    }
    const text = next.toString();
    history.replaceState(null, "", this.#path + (text ? `?${text}` : ""));
    this.#read();
  }

  #read(): void {
    this.#path = window.location.pathname.replace(/(.)\/+$/, "$1");
    this.#query = new URLSearchParams(window.location.search);
  }
}

export const place = new Place();

/** Whether a click on a link should stay in this page: plain, own address, one of the desk's. */
export function isOwnClick(event: MouseEvent): HTMLAnchorElement | null {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
  const link = (event.target as Element | null)?.closest?.("a[href]") as HTMLAnchorElement | null;
  if (!link || link.target || link.hasAttribute("download") || link.origin !== window.location.origin) return null;
  const isHere = link.pathname === window.location.pathname && link.hash !== "";
  return !isHere && /^\/(desk|how)(\/|$)/.test(link.pathname) ? link : null;
}
