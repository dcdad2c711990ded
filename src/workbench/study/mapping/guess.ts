import {
  COUNT_MEANINGS,
  columnsOf,
  type Mapping,
  type Meaning,
  type RapidCode,
  RESULT_MEANINGS,
  type ReferenceCode,
} from "./mapping.ts";
import type { PreviewColumn, TablePreview } from "./table-preview.ts";

/** Column names as such tables commonly have them. Common practice, no source. */
const NAMES: Readonly<Record<Meaning, RegExp>> = {
  rapid: /rapid|rdt|index|kit_?result|cassette|strip|^test(_?result)?$|lateral/i,
  reference: /refer|gold|standard|elisa|eia|pcr|naat|culture|immunoassay|^lab(_?result)?$|confirm|truth/i,
  person: /person|participant|patient|subject|study_?(id|no|code)|^(id|pid|code|seqno|seq|case)$/i,
  device: /device|serial|lot_?no|cassette_?id/i,
  specimen: /specimen|sample_?type|matrix/i,
  reader: /reader|observer|read_?by/i,
  site: /site|clinic|cent(er|re)|hospital|facility/i,
  selection: /selection|recruit/i,
  minutes: /minutes|mins?$|reading_?time/i,
  group: /age_?(band|group)|sex|gender|stratum|group/i,
  true_positives: /true_?pos|^tp$|reactive_positive|^a$/i,
  false_positives: /false_?pos|^fp$|reactive_negative|^b$/i,
  false_negatives: /false_?neg|^fn$|nonreactive_positive|^c$/i,
  true_negatives: /true_?neg|^tn$|nonreactive_negative|^d$/i,
  invalid_positives: /invalid_?pos/i,
  invalid_negatives: /invalid_?neg/i,
  analyte: /analyte|condition|marker|target/i,
};

const POSITIVE = /^(reactive|react|r|pos|positive|p|\+|1|yes|y|true|detected)$/i;
const NEGATIVE = /^(non[ _-]?reactive|nr|neg|negative|n|-|0|no|false|not[ _-]?detected)$/i;
const INVALID = /^(inv|invalid|i|error|fail|failed)$/i;
const INDETERMINATE = /^(ind|indet|indeterminate|equivocal|borderline|gr[ea]y[ _-]?zone)$/i;
const NOT_DONE = /^(nd|not[ _-]?done|na|n\/a|missing|\.)$/i;
/** More different texts than this are no codes of results. */
const MOST_CODES = 8;

/** What a table seems to be. Every guess is named as one, and stands where the user can change it. */
export function guessed(table: string, preview: TablePreview, shape = shapeOf(preview)): Mapping {
  const meanings = meaningsOf(preview, shape);
  const mapping: Mapping = {
    table,
    shape,
    meanings,
    rapid: {},
    reference: {},
    about: { ...NOTHING_SAID },
    guessed: Object.keys(meanings).filter((column) => meanings[column] !== ""),
  };
  return withCodes(withCodes(mapping, preview, "rapid"), preview, "reference");
}

const NOTHING_SAID = {
  kit: "",
  condition: "",
  specimen: "",
  reference: "",
  role: null,
  discrepancies: "",
  selection: null,
  invalid: null,
  repeat: null,
  outside_window: null,
  max_attempts: null,
  interval: { method: null, level: null },
};

/** The mapping with the codes of the column that now holds these results, their meanings guessed. */
export function withCodes(mapping: Mapping, preview: TablePreview, of: "rapid" | "reference"): Mapping {
  const [name] = columnsOf(mapping, of);
  const column = preview.columns.find((one) => one.name === name);
  const codes = column?.more === false ? column.values.map(({ text }) => text) : [];
  const guess = of === "rapid" ? rapidOf : referenceOf;
  const meant = Object.fromEntries(codes.map((code) => [code, mapping[of][code] || guess(code)]));
  const others = mapping.guessed.filter((one) => !one.startsWith(`${of}:`));
  const fresh = codes.filter((code) => meant[code] !== "").map((code) => `${of}:${code}`);
  return { ...mapping, [of]: meant, guessed: [...others, ...fresh] };
}

function shapeOf({ columns }: TablePreview): Mapping["shape"] {
  const cells = (["true_positives", "false_positives", "false_negatives", "true_negatives"] as const).map(
    (meaning) => columns.some(({ name, whole }) => whole && NAMES[meaning].test(name)),
  );
  return cells.every(Boolean) ? "counts" : "results";
}

function meaningsOf({ columns }: TablePreview, shape: Mapping["shape"]): Record<string, Meaning | ""> {
  const free = new Set<Meaning>(shape === "results" ? RESULT_MEANINGS : COUNT_MEANINGS);
  const found: [string, Meaning | ""][] = columns.map((column) => {
    const meaning = [...free].find((one) => NAMES[one].test(column.name) && holds(one, column)) ?? "";
    if (meaning !== "" && meaning !== "group") free.delete(meaning);
    return [column.name, meaning];
  });
  return Object.fromEntries(found);
}

/** Whether what stands in a column can be of this meaning at all. */
function holds(meaning: Meaning, { values, more, whole }: PreviewColumn): boolean {
  if (meaning === "rapid" || meaning === "reference") return !more && values.length <= MOST_CODES;
  if (/_(positives|negatives)$/.test(meaning)) return whole;
  return meaning === "group" ? !more : true;
}

function rapidOf(code: string): RapidCode | "" {
  if (POSITIVE.test(code)) return "reactive";
  if (NEGATIVE.test(code)) return "nonreactive";
  if (INVALID.test(code)) return "invalid";
  return NOT_DONE.test(code) ? "not_done" : "";
}

function referenceOf(code: string): ReferenceCode | "" {
  if (POSITIVE.test(code)) return "positive";
  if (NEGATIVE.test(code)) return "negative";
  if (INDETERMINATE.test(code)) return "indeterminate";
  return NOT_DONE.test(code) ? "not_done" : "";
}
