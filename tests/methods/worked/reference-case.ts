import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";

/** One case of `tests/reference/worked-examples.json`; its README says what each field means. */
export interface ReferenceCase {
  readonly id: string;
  readonly area: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, number | string>>;
  readonly published?: Readonly<Record<string, number>>;
  readonly tolerance: {
    readonly rel: number;
    readonly publishedDigits?: number | Readonly<Record<string, number>>;
  };
  readonly citation?: string;
  readonly memory: boolean;
  readonly disputed?: boolean;
}

/** What this project makes of a case: the same keys as `expected`. */
export type Actual = Readonly<Record<string, number | string | null>>;
export type Check = (inputs: ReferenceCase["inputs"]) => Actual;

const REFERENCE = new URL("../../reference/", import.meta.url);

export function referenceCases(): ReferenceCase[] {
  return JSON.parse(readFileSync(new URL("worked-examples.json", REFERENCE), "utf8")) as ReferenceCase[];
}

/** Rows of one of the real data sets, every cell as text. */
export function realData(name: string): Record<string, string>[] {
  const text = readFileSync(new URL(`data/${name}`, REFERENCE), "utf8");
  return parse(text, { columns: true }) as Record<string, string>[];
}

/** The fourfold table of rows that have a truth and a test result. */
export function fourfoldOf(
  rows: readonly Record<string, string>[],
  truth: (row: Record<string, string>) => boolean,
  test: (row: Record<string, string>) => boolean,
) {
  const people = (present: boolean, reactive: boolean) =>
    rows.filter((row) => truth(row) === present && test(row) === reactive).length;
  return {
    truePositives: people(true, true),
    falsePositives: people(false, true),
    falseNegatives: people(true, false),
    trueNegatives: people(false, false),
  };
}
