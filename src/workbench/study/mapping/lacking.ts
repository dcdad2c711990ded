import { check } from "../../../core/check.ts";
import { AboutSchema, columnsOf, type Mapping, type Meaning } from "./mapping.ts";
import type { TablePreview } from "./table-preview.ts";

/** What must still be said before a study can be made of a table. */
export type Lack =
  | { readonly kind: "column"; readonly meaning: Meaning }
  | { readonly kind: "codes"; readonly of: "rapid" | "reference"; readonly codes: readonly string[] }
  | { readonly kind: "too_many"; readonly meaning: Meaning; readonly column: string }
  | { readonly kind: "names"; readonly meaning: Meaning; readonly texts: readonly string[] }
  | { readonly kind: "window" }
  | { readonly kind: "about"; readonly fields: number };

const NEEDED = {
  results: ["rapid", "reference"],
  counts: ["true_positives", "false_positives", "false_negatives", "true_negatives"],
} as const satisfies Record<Mapping["shape"], readonly Meaning[]>;

const NAME = /^[A-Za-z0-9][A-Za-z0-9_.-]*$/;

export function lacking(mapping: Mapping, preview: TablePreview): Lack[] {
  const columns = NEEDED[mapping.shape]
    .filter((meaning) => columnsOf(mapping, meaning).length === 0)
    .map((meaning): Lack => ({ kind: "column", meaning }));
  const about = check(AboutSchema, mapping.about);
  const window = about.ok && about.value.reading_window === undefined;
  return [
    ...columns,
    ...(mapping.shape === "results"
      ? [...codesLacking(mapping, preview, "rapid"), ...codesLacking(mapping, preview, "reference")]
      : []),
    ...namesLacking(mapping, preview),
    ...(about.ok
      ? []
      : [{ kind: "about" as const, fields: new Set(about.faults.map(({ path }) => path.join("."))).size }]),
    ...(window && columnsOf(mapping, "minutes").length > 0 ? [{ kind: "window" as const }] : []),
  ];
}

function codesLacking(mapping: Mapping, preview: TablePreview, of: "rapid" | "reference"): Lack[] {
  const [column] = columnsOf(mapping, of);
  if (column === undefined) return [];
  if (preview.columns.find(({ name }) => name === column)?.more)
    return [{ kind: "too_many", meaning: of, column }];
  const codes = Object.keys(mapping[of]).filter((code) => mapping[of][code] === "");
  return codes.length === 0 ? [] : [{ kind: "codes", of, codes }];
}

/** Specimen types and analytes go into the study file as short names. */
function namesLacking(mapping: Mapping, preview: TablePreview): Lack[] {
  return (["specimen", "analyte"] as const).flatMap((meaning): Lack[] => {
    const [column] = columnsOf(mapping, meaning);
    const found = preview.columns.find(({ name }) => name === column);
    if (column === undefined || found === undefined) return [];
    if (found.more) return [{ kind: "too_many", meaning, column }];
    const texts = found.values.map(({ text }) => text).filter((text) => !NAME.test(text));
    return texts.length === 0 ? [] : [{ kind: "names", meaning, texts }];
  });
}
