/** A polynomial by Horner's rule, the coefficient of the highest power first. */
export function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
