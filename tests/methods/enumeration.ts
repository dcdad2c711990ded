/** Probabilities by plain counting, owing nothing to the project's own functions. */

const logFactorials: number[] = [0];

function logFactorial(n: number): number {
  for (let at = logFactorials.length; at <= n; at += 1) {
    logFactorials.push((logFactorials[at - 1] as number) + Math.log(at));
  }
  return logFactorials[n] as number;
}

/** Log of the ways to choose so many of so many; minus infinity where there are none. */
export function logChoose(total: number, count: number): number {
  if (count < 0 || count > total) return Number.NEGATIVE_INFINITY;
  return logFactorial(total) - logFactorial(count) - logFactorial(total - count);
}

/** Ways to choose, exactly. */
export function choose(total: number, count: number): bigint {
  if (count < 0 || count > total) return 0n;
  let ways = 1n;
  for (let at = 1; at <= count; at += 1) ways = (ways * BigInt(total - count + at)) / BigInt(at);
  return ways;
}

/** P(X = k | total, share) for k = 0..total. */
export function binomialMasses(total: number, share: number): number[] {
  return Array.from({ length: total + 1 }, (_, count) =>
    Math.exp(logChoose(total, count) + count * Math.log(share) + (total - count) * Math.log1p(-share)),
  );
}

/** Every way to place `counted` over strata of these sizes. */
export function* tables(totals: readonly number[], counted: number): Generator<number[]> {
  const [first, ...others] = totals;
  if (first === undefined) {
    if (counted === 0) yield [];
    return;
  }
  for (let here = 0; here <= Math.min(first, counted); here += 1) {
    for (const rest of tables(others, counted - here)) yield [here, ...rest];
  }
}

/** Ways to get this table, exactly. */
export function waysOf(totals: readonly number[], table: readonly number[]): bigint {
  return table.reduce((ways, count, at) => ways * choose(totals[at] as number, count), 1n);
}

/** Quotient of two whole numbers as a double. */
export function quotient(part: bigint, whole: bigint): number {
  const digits = 10n ** 20n;
  return Number((part * digits) / whole) / 1e20;
}
