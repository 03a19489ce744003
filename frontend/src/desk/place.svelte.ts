export { route as place } from "../state/route.svelte";

/** Whether a click on a link should stay in this page: plain, own address, one of the desk's. */
export function isOwnClick(event: MouseEvent): HTMLAnchorElement | null {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
  const link = (event.target as Element | null)?.closest?.("a[href]") as HTMLAnchorElement | null;
  if (!link || link.target || link.hasAttribute("download") || link.origin !== window.location.origin) return null;
  const isHere = link.pathname === window.location.pathname && link.hash !== "";
  return !isHere && /^\/(desk|how)(\/|$)/.test(link.pathname) ? link : null;
}
