import * as v from "valibot";
import { Values as CalibrationValues } from "../../methods/roc/calibration-fields.ts";
import { CompareValues } from "../../methods/roc/compare-fields.ts";
import { CurveValues } from "../../methods/roc/curve-fields.ts";
import { CutoffValues } from "../../methods/roc/cutoff-fields.ts";
import { Values as DetectionValues } from "../../methods/roc/detection-limit-fields.ts";
import { EyeValues } from "../../methods/roc/eye-fields.ts";
import { IntensityValues } from "../../methods/roc/intensity-fields.ts";
import { OrdinalValues } from "../../methods/roc/ordinal-fields.ts";
import { Cell, Count, Notes, Real, SensitivitySpecificity, Share } from "./parts.ts";

const Setaside = v.array(v.strictObject({ reason: v.string(), people: Count }));

/** `asked` = `positives` + `negatives` + the sum of `setAside`. */
const People = v.strictObject({ asked: Count, positives: Count, negatives: Count, setAside: Setaside });

const Rule = v.variant("kind", [
  v.strictObject({ kind: v.literal("youden") }),
  v.strictObject({ kind: v.literal("specificity_at_least"), least: Share }),
  v.strictObject({ kind: v.literal("sensitivity_at_least"), least: Share }),
  v.strictObject({
    kind: v.literal("cost"),
    prevalence: Share,
    falsePositiveCost: v.number(),
    falseNegativeCost: v.number(),
  }),
]);

/** Bands of minutes for the readings whose minutes are known. */
const Minutes = v.strictObject({
  edges: v.array(v.number()),
  known: Count,
  unknown: Count,
  bands: IntensityValues.entries.bands,
  outsideBands: Real,
});

/** Someone who read the same devices by eye. */
const Eye = v.strictObject({
  reader: v.string(),
  /** Of the instrument's people, those whose same device this reader gave a valid result. */
  people: People,
  /** The two lines of points: the eye's against the instrument's on the same people. `null`: nobody. */
  against: v.nullable(EyeValues),
  /** Line strength as seen: absent, faint, clear. `null`: not recorded, or nobody of a kind. */
  ordinal: v.nullable(OrdinalValues),
});

/** Readings of an instrument in one cell; its reader is the instrument. */
export const IntensitySchema = v.strictObject({
  ...Cell,
  /** Lines whose readings these are (the strongest, where an analyte has several); none: no lines recorded. */
  lines: v.array(v.string()),
  unit: v.string(),
  direction: v.picklist(["higher", "lower"]),
  scale: v.picklist(["linear", "log10"]),
  people: People,
  curve: CurveValues,
  /** The cutoff stated beforehand, with the study's interval; `null`: none stated. */
  stated: v.nullable(
    v.strictObject({
      cutoff: v.number(),
      from: v.picklist(["kit", "study"]),
      source: v.string(),
      ...SensitivitySpecificity,
    }),
  ),
  /** The cutoff chosen on these very people, and what that flatters by; `null`: none is to be chosen. */
  chosen: v.nullable(v.strictObject({ rule: Rule, values: CutoffValues })),
  eyes: v.array(Eye),
  distribution: v.strictObject({
    groups: IntensityValues.entries.groups,
    /** Bars of equal width on `histogramScale`, edges in the unit of the readings. */
    histogramScale: v.picklist(["linear", "log10"]),
    histogram: IntensityValues.entries.histogram,
    overlap: IntensityValues.entries.overlap,
    largestGap: IntensityValues.entries.largestGap,
    minutes: v.nullable(Minutes),
  }),
  /** Where the reading is a probability. */
  calibration: v.nullable(CalibrationValues),
  /** Paths begin with `curve.`, `chosen.`, `eyes.0.against.`, `calibration.` … where a note is about these. */
  notes: Notes,
});

const Side = v.strictObject({ kit: v.string(), reader: v.string(), unit: v.string() });

/** Curves of two kits or two instruments on the same people. */
export const IntensityComparisonSchema = v.strictObject({
  analyte: v.string(),
  specimen: v.string(),
  first: Side,
  second: Side,
  /** Of those whom either measured; set aside: measured by one alone. */
  people: People,
  /** `null`: nobody was measured by both. */
  values: v.nullable(CompareValues),
  notes: Notes,
});

/** A dilution panel and the concentration that is found with the chance asked for. */
export const PanelSchema = v.strictObject({
  id: v.string(),
  title: v.string(),
  analyte: v.string(),
  kit: v.string(),
  unit: v.string(),
  chance: Share,
  lackOfFit: v.picklist(["ignore", "widen", "widen_when_shown"]),
  source: v.nullable(v.string()),
  table: v.string(),
  /** Rows of the table; `rows` = `used` + `blanks` + the rows set aside in the ledger. */
  rows: v.strictObject({ used: Count, blanks: Count }),
  /** Devices without blanks. */
  devices: v.strictObject({ tested: Count, reactive: Count }),
  /** All lots together. `null`: no row, or too many. */
  values: v.nullable(DetectionValues),
  /** Each lot by itself, where there are several. */
  lots: v.array(v.strictObject({ lot: v.string(), values: DetectionValues })),
  /** Paths begin with `values.` or `lots.0.values.` where a note is about these. */
  notes: Notes,
});
