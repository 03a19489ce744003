// Mirror of inspections/trade/exponentials.py.

const LN2_HIGH = 6.93147180369123816490e-01;
const LN2_LOW = 1.90821492927058770002e-10;
const EXP_TERMS = 18;
const LOG_TERMS = 21;

export function naturalExp(x: number): number {
  if (!(x >= -700 && x <= 700)) throw new RangeError(`No exposure needs e to the power ${x}.`);
  let halvings = Math.floor(Math.abs(x) / LN2_HIGH + 0.5);
  if (x < 0) halvings = -halvings;
  const rest = x - halvings * LN2_HIGH - halvings * LN2_LOW;
  let total = 1;
  for (let i = EXP_TERMS; i > 0; i--) total = 1 + (total * rest) / i;
  const factor = halvings > 0 ? 2 : 0.5;
  for (let i = 0; i < Math.abs(halvings); i++) total = total * factor;
  return total;
}

export function naturalLog(value: number): number {
  if (!(value >= 1e-300 && value <= 1e300)) throw new RangeError(`No exposure needs the logarithm of ${value}.`);
  let x = value;
  let doublings = 0;
  while (x > 1.4142135623730951) {
    x = x / 2;
    doublings = doublings + 1;
  }
  while (x < 0.7071067811865476) {
    x = x * 2;
    doublings = doublings - 1;
  }
  const ratio = (x - 1) / (x + 1);
  const square = ratio * ratio;
  let total = 0;
  for (let i = 2 * LOG_TERMS + 1; i > 0; i -= 2) total = total * square + 1 / i;
  return doublings * LN2_HIGH + (2 * ratio * total + doublings * LN2_LOW);
}
