import { SITES } from "./scenario.ts";
import type { SiteId } from "./world.ts";

const WIDE_STUDY_ID = "SELBRIA-WIDE";
const COUNTS_STUDY_ID = "SELBRIA-COUNTS";
const PARTLY_VERIFIED_STUDY_ID = "SELBRIA-PARTLY";

/** `study.yaml` of the small study whose readings stand one row for each device and reader. */
export function wideStudyText(seed: number, sites: readonly SiteId[]): string {
  return `# A small invented study in the wide form: one row for each device and reader, one column for each line.
# Selbria, its clinics, its people and Kit Q do not exist; all results are simulated (seed ${seed}).
# R1 looked at some devices a second time, 10 to 20 minutes later (reading_no 2): what would late reading do?
format: fourfold-study/1
id: ${WIDE_STUDY_ID}
title: Kit Q in a small sample, readings in the wide form (invented)
status: draft
dates: { first: 2026-04-01, last: 2026-09-30 }
kit: kit.yaml
${sitesText(sites)}
arms:
  - { id: A, title: Consecutive people, selection: consecutive }
${analytesText(true)}
${specimensText()}
readers: { use: primary, primary: R1 }
criteria:
  - id: hbsag-sp
    analyte: hbsag
    measure: specificity
    at_least: 0.9
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
  - id: invalid-venous
    analyte: hbsag
    measure: invalid_rate
    at_most: 0.05
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
strata:
  - { id: site, title: Site, table: participants, column: site_id, planned: true }
treatment: { invalid: set_aside, outside_window: keep, repeat: last }
interval: { method: clopper_pearson, level: 0.95 }
seed: ${seed}
records:
  shape: lines
  participants: participants.csv
  specimens: specimens.csv
  index_tests: index_tests.csv
  wide_readings:
    table: readings.csv
    # line of the kit: column of the table
    lines: { C: control_line, T1: t1_line, T2: t2_line }
  reference_tests: reference_tests.csv
`;
}

/** `study.yaml` of the study of which only counts are left. */
export function countsStudyText(seed: number, sites: readonly SiteId[]): string {
  return `# An invented study of which only counts are known, as from a published table: one row for each site,
# analyte and specimen type. Selbria, its clinics and Kit Q do not exist; the results are simulated (seed ${seed}).
format: fourfold-study/1
id: ${COUNTS_STUDY_ID}
title: Kit Q at three clinics, counts only (invented)
status: locked
kit: kit.yaml
${sitesText(sites)}
arms:
  - { id: A, title: Consecutive people, selection: consecutive }
${analytesText(false)}
${specimensText()}
# Counts name no reader; the name below stands for the results as they were counted.
readers: { use: primary, primary: recorded }
criteria:
  - id: hbsag-se
    analyte: hbsag
    measure: sensitivity
    at_least: 0.95
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
  - id: hcv-sp
    analyte: anti_hcv
    measure: specificity
    at_least: 0.97
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
strata:
  - { id: site, title: Site, column: site, planned: true }
# Counts carry no reading times and no repeats: only the treatment of invalid results matters here.
treatment: { invalid: failure, outside_window: keep, repeat: first }
interval: { method: clopper_pearson, level: 0.95 }
seed: ${seed}
records:
  shape: counts
  table: counts.csv
  columns:
    analyte: analyte
    specimen: specimen
    true_positives: reactive_positive
    false_positives: reactive_negative
    false_negatives: nonreactive_positive
    true_negatives: nonreactive_negative
    invalid_positives: invalid_positive
    invalid_negatives: invalid_negative
`;
}

/** `study.yaml` of the study in which the kit's result decided who got the reference test. */
export function partlyVerifiedStudyText(seed: number, sites: readonly SiteId[]): string {
  return `# An invented study in which the laboratory could not test everybody: all with a reactive result went there, and
# of the others a share that differed from clinic to clinic. Selbria, its clinics, its people and Kit Q do not exist;
# all results are simulated (seed ${seed}), and so is the choice of people for the laboratory.
format: fourfold-study/1
id: ${PARTLY_VERIFIED_STUDY_ID}
title: Kit Q where only some people got the reference test (invented)
status: locked
kit: kit.yaml
${sitesText(sites)}
arms:
  - { id: A, title: Consecutive people, selection: consecutive }
analytes:
  - id: anti_hcv
    title: anti-HCV
    reference:
      title: Immunoassay, then immunoblot when reactive
      role: reference_standard
      discrepancies: not settled again; all reactive people and a share of the nonreactive were tested
specimens:
  - { type: venous_whole_blood, title: Venous whole blood }
# The table names no reader.
readers: { use: primary, primary: recorded }
criteria:
  - id: hcv-se
    analyte: anti_hcv
    measure: sensitivity
    at_least: 0.95
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
  - id: hcv-sp
    analyte: anti_hcv
    measure: specificity
    at_least: 0.97
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
strata:
  - { id: site, title: Site, column: site, planned: true }
# Within a clinic and a result, who was tested was left to chance; that is a claim, so odds ratios are looked at.
verification:
  strata: [site]
  odds_ratio: { from: 0.5, to: 2 }
treatment: { invalid: set_aside, outside_window: keep, repeat: last }
interval: { method: clopper_pearson, level: 0.95 }
seed: ${seed}
records:
  shape: results
  table: results.csv
  columns: { person: person, site: site }
  analytes:
    - { analyte: anti_hcv, rapid: kit, reference: laboratory }
  # An empty laboratory cell: not tested there.
  codes:
    rapid: { reactive: [reactive], nonreactive: [nonreactive], invalid: [invalid] }
    reference: { positive: [positive], negative: [negative], indeterminate: [indeterminate] }
`;
}

function sitesText(sites: readonly SiteId[]): string {
  const listed = SITES.filter(({ id }) => sites.includes(id));
  return ["sites:", ...listed.map(({ id, title }) => `  - { id: ${id}, title: ${title} }`)].join("\n");
}

function analytesText(withAlgorithm: boolean): string {
  const first = `
      algorithm:
        - { assay: H-EIA, leads_to: { reactive: H-EIA-DUP, nonreactive: negative } }
        - { assay: H-EIA-DUP, several: any_reactive, leads_to: { reactive: H-NEUT, nonreactive: negative } }
        - { assay: H-NEUT, leads_to: { reactive: positive, nonreactive: negative, failed: indeterminate } }`;
  const second = `
      algorithm:
        - { assay: C-EIA, leads_to: { reactive: C-BLOT, nonreactive: negative } }
        - assay: C-BLOT
          leads_to: { reactive: positive, nonreactive: negative, indeterminate: indeterminate }`;
  return `analytes:
  - id: hbsag
    title: HBsAg
    reference:
      title: Immunoassay, repeated in duplicate when reactive, then neutralisation
      role: reference_standard
      discrepancies: not settled again; the reference algorithm ran on all${withAlgorithm ? first : ""}
  - id: anti_hcv
    title: anti-HCV
    reference:
      title: Immunoassay, then immunoblot when reactive
      role: reference_standard
      discrepancies: not settled again; the reference algorithm ran on all${withAlgorithm ? second : ""}`;
}

function specimensText(): string {
  return `specimens:
  - { type: venous_whole_blood, title: Venous whole blood }
  - { type: fingerstick, title: Fingerstick blood }`;
}
