import { demand } from "../core/check.ts";
import { InputError } from "../core/input-error.ts";
import { type Evaluation, EvaluationSchema } from "./document.ts";
import { CURRENT_VERSION, MIGRATIONS, type Migration } from "./migrations.ts";

/**
 * Reads an evaluation document: checks what it is, brings an older version up to date, and holds
 * every field against the schema.
 *
 * @param value the parsed JSON
 * @throws InputError naming the first field that does not fit, or the version that can't be read
 */
export function readEvaluation(
  value: unknown,
  migrations: Readonly<Record<number, Migration>> = MIGRATIONS,
): Evaluation {
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new InputError(["evaluation"], "an evaluation document", value);
  }
  const document = value as Readonly<Record<string, unknown>>;
  if (document.format !== "fourfold-evaluation") {
    throw new InputError(["evaluation", "format"], '"fourfold-evaluation"', document.format);
  }
  return demand(EvaluationSchema, upToDate(document, migrations), "evaluation");
}

function upToDate(
  document: Readonly<Record<string, unknown>>,
  migrations: Readonly<Record<number, Migration>>,
): Readonly<Record<string, unknown>> {
  let current = document;
  while (current.version !== CURRENT_VERSION) {
    const version = current.version;
    const migrate = typeof version === "number" ? migrations[version] : undefined;
    if (migrate === undefined) {
      const newer = typeof version === "number" && version > CURRENT_VERSION;
      const expected = newer
        ? `a version up to ${CURRENT_VERSION} (a newer Fourfold wrote this document)`
        : `a version of the evaluation document, up to ${CURRENT_VERSION}`;
      throw new InputError(["evaluation", "version"], expected, version);
    }
    current = migrate(current);
  }
  return current;
}
