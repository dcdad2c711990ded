/** One place where two documents differ; `undefined` where a document has nothing there. */
export interface Difference {
  /** Dotted, list entries by number: `accuracy.0.counts.truePositives`. */
  readonly path: string;
  readonly was: unknown;
  readonly is: unknown;
}

/** Where two plain-data values differ, leaf by leaf, in the order of the first. Exact: no tolerance. */
export function differences(was: unknown, is: unknown, path = ""): Difference[] {
  if (Object.is(was, is)) return [];
  if (!isBranch(was) || !isBranch(is) || Array.isArray(was) !== Array.isArray(is)) return [{ path, was, is }];
  const keys = [...new Set([...Object.keys(was), ...Object.keys(is)])];
  return keys.flatMap((key) => differences(was[key], is[key], path === "" ? key : `${path}.${key}`));
}

function isBranch(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null;
}
