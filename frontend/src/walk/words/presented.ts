/** The drawings of whole prawns, shown of the goods at hand: no head where they come without, no legs where they are peeled. */
const PEELED = ["PTO", "PDTO", "PUD", "PD", "BTTY", "PPV"];
/** In the drawings (inspections/trade/data/drawings) the first segment behind the head begins here. */
const TAIL_FROM = 96;
const PART = /<(?:path|circle|ellipse)[^>]*?(?: d="M| cx=")([0-9.]+)[^>]*\/>/g;
const LEGS = /<path d="M104 80[^>]*\/>/g;

export function presented(svg: string, presentation: string): string {
  if (presentation === "HOSO" || presentation === "") return svg;
  return svg.replace(/<defs>.*<\/defs>/s, (defs) => {
    const headless = defs.replace(PART, (part: string, x: string) => (Number(x) < TAIL_FROM ? "" : part));
    return PEELED.includes(presentation) ? headless.replace(LEGS, "") : headless;
  });
}
