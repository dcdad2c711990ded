/**
 * A made-up study of nineteen people on one table: 8 of 9 positives reactive, 9 of 10 negatives
 * non-reactive. One study code looks like a spreadsheet formula.
 */
const KIT = `format: fourfold-kit/1
id: made-up
title: A made-up kit
lines:
  - { id: C, role: control }
  - { id: T1, role: test, analyte: one }
specimens:
  - { type: serum }
timed_from: buffer_applied
reading_window: { from_minutes: 15, to_minutes: 20 }
faint_line: reactive
repeat: { max_attempts: 1 }
source: { title: made up }
`;

export const STUDY = `format: fourfold-study/1
id: small
title: A small study
status: locked
kit: kit.yaml
arms:
  - { id: all, title: All comers, selection: consecutive }
analytes:
  - id: one
    title: Analyte one
    reference: { title: made up, role: reference_standard, discrepancies: none settled }
specimens:
  - { type: serum, title: Serum }
readers: { use: primary, primary: recorded }
criteria:
  - { id: se, analyte: one, measure: sensitivity, at_least: 0.95, source: made up }
treatment: { invalid: set_aside, outside_window: keep, repeat: first }
interval: { method: clopper_pearson, level: 0.95 }
seed: 1
records:
  shape: results
  table: results.csv
  columns: { person: code }
  analytes:
    - { analyte: one, rapid: rapid, reference: reference }
  codes:
    rapid: { reactive: ["pos"], nonreactive: ["neg"] }
    reference: { positive: ["1"], negative: ["0"] }
`;

const ROWS = [
  ...Array.from({ length: 8 }, (_, index) => `A${index},pos,1`),
  "=1+2,neg,1",
  ...Array.from({ length: 9 }, (_, index) => `B${index},neg,0`),
  "@SUM(A1),pos,0",
];

export const RESULTS = `code,rapid,reference\n${ROWS.join("\n")}\n`;

export const SMALL_STUDY = { "study.yaml": STUDY, "kit.yaml": KIT, "results.csv": RESULTS };
