/**
 * A wrong argument: the caller must change it. Says where, what was expected and what came.
 * A bad *record* is not an `InputError` but a row issue; a valid question the data can't answer
 * is not an error either but a `null` with a `Note`.
 */
export class InputError extends Error {
  override readonly name = "InputError";
  /** Where the value stands, outermost first: `["input", "prevalences", "2"]`. */
  readonly path: readonly string[];
  readonly expected: string;
  readonly received: string;

  constructor(path: readonly (string | number)[], expected: string, received: unknown) {
    const place = path.map(String);
    const came = describe(received);
    super(`${place.join(".") || "(whole input)"}: expected ${expected}, received ${came}`);
    this.path = place;
    this.expected = expected;
    this.received = came;
  }
}

const LONGEST = 60;

/** A value in one short line, for an error message. Long text is cut, and says so. */
export function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") {
    return value.length > LONGEST
      ? `${JSON.stringify(value.slice(0, LONGEST))}… (${value.length} characters)`
      : JSON.stringify(value);
  }
  if (typeof value === "object" && value !== null) {
    const text = JSON.stringify(value) ?? String(value);
    return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
  }
  return String(value);
}
