import fc from "fast-check";

/** Counts that are often 0: the awkward tables are the interesting ones. */
const count = (most: number) =>
  fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: fc.nat({ max: most }) });

export const PAIRED = fc
  .constantFrom(3, 40, 5000)
  .chain((most) =>
    fc.record({ both: count(most), firstOnly: count(most), secondOnly: count(most), neither: count(most) }),
  );

const group = (most: number) =>
  fc
    .oneof(
      { weight: 1, arbitrary: fc.constant(0) },
      { weight: 9, arbitrary: fc.integer({ min: 1, max: most }) },
    )
    .chain((total) =>
      fc.record({
        count: fc.oneof(fc.constant(0), fc.constant(total), fc.nat({ max: total })),
        total: fc.constant(total),
      }),
    );

export const GROUPS = fc
  .constantFrom(3, 40, 5000)
  .chain((most) => fc.record({ first: group(most), second: group(most) }));

/** Small enough to list every result. */
export const SMALL_GROUPS = fc.record({ first: group(7), second: group(7) });

export const LEVEL = fc.constantFrom(0.8, 0.9, 0.95, 0.99);

interface Bounds {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** The interval holds its estimate, up to rounding. */
export function holds({ value, lower, upper }: Bounds): boolean {
  if (value === null || lower === null) return true;
  const slack = 1e-12 * Math.max(1, Math.abs(value));
  return lower <= value + slack && (upper === null || value <= upper + slack);
}

export function mirrored({ value, lower, upper }: Bounds): Bounds {
  const minus = (part: number | null) => (part === null ? null : 0 - part);
  return { value: minus(value), lower: minus(upper), upper: minus(lower) };
}
