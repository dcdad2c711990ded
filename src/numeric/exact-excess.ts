/** 2^27 + 1, which splits a double into two halves of 26 bits. */
const SPLITTER = 134217729;

/**
 * What the rounded product of two numbers below 1e290 lacks: a b - product, exactly.
 * Source: Dekker 1971 (Numerische Mathematik 18, 224-242).
 */
export function productError(a: number, b: number, product: number): number {
  const aSplit = SPLITTER * a;
  const aHigh = aSplit - (aSplit - a);
  const aLow = a - aHigh;
  const bSplit = SPLITTER * b;
  const bHigh = bSplit - (bSplit - b);
  const bLow = b - bHigh;
  return aHigh * bHigh - product + aHigh * bLow + aLow * bHigh + aLow * bLow;
}

/** count x share - part, accurate also where the product nearly equals `part`. */
export function exactExcess(count: number, share: number, part: number): number {
  const product = count * share;
  return product - part + productError(count, share, product);
}
