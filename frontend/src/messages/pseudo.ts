// Mirror of inspections/messages/pseudo.py.

const PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
const MARKED = "áƀçðéƒĝĥíĵķļɱñóþɋŕšţúṽŵẋýžÁƁÇÐÉƑĜĤÍĴĶĻḾÑÓÞǪŔŠŢÚṼŴẊÝŽ";

export function marked(text: string): string {
  return text.replace(/[a-zA-Z]/g, (letter) => MARKED[PLAIN.indexOf(letter)]!.repeat(/[aeiou]/.test(letter) ? 2 : 1));
}

export function bracketed(text: string): string {
  return `⟦${text}⟧`;
}
