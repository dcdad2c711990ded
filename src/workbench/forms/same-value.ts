/** Whether two plain values say the same; the order of fields says nothing. */
export function sameValue(one: unknown, other: unknown): boolean {
  return JSON.stringify(one, inOrder) === JSON.stringify(other, inOrder);
}

function inOrder(_: string, value: unknown): unknown {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  const entries = Object.entries(value);
  return Object.fromEntries(entries.sort(([one], [other]) => (one < other ? -1 : 1)));
}
