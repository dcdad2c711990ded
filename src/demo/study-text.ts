import { doubtsText } from "./doubts-text.ts";
import { measuringText } from "./measuring-text.ts";
import { SITES } from "./scenario.ts";

export const DEMO_STUDY_ID = "SELBRIA-HEP";

/** `study.yaml` of the demo study, with its comments. */
export function demoStudyText(seed: number): string {
  return [
    heading(seed),
    arms(),
    analytes(),
    results(),
    criteria(),
    comparisons(),
    prevalences(),
    strata(),
    doubtsText(),
    measuringText(),
    analysis(seed),
    records(),
  ].join("\n");
}

function heading(seed: number): string {
  return `# SELBRIA-HEP: an invented study. The Republic of Selbria, its clinics, its people and Kit Q do not exist;
# all results are simulated (seed ${seed}). Faults are planted in the tables on purpose: the report lists them.
format: fourfold-study/1
id: ${DEMO_STUDY_ID}
title: Field evaluation of Kit Q for HBsAg and anti-HCV, Republic of Selbria (invented)
status: locked
protocol:
  version: "1.2 of 2026-01-20"
  registration: none, as the study is invented
dates: { first: 2026-04-01, last: 2026-09-30 }
kit: kit.yaml
`;
}

function arms(): string {
  const sites = SITES.map(({ id, title }) => `  - { id: ${id}, title: ${title} }`).join("\n");
  return `sites:
${sites}

# Arm B was enriched: its own prevalence, and so its predictive values, are nobody's.
arms:
  - id: A
    title: Consecutive people at Brisselmouth, Ondavell and Teroon Lake
    selection: consecutive
  - id: B
    title: People at risk or under follow-up at Skerrold and Mavenfold
    selection: enriched
`;
}

function analytes(): string {
  return `# The reference algorithm turns component results into a status: first assay first, and what follows each result.
# Assays that stand in the table but not here (second immunoassays, RNA) describe and decide nothing.
analytes:
  - id: hbsag
    title: HBsAg
    reference:
      title: Immunoassay, repeated in duplicate when reactive, then neutralisation; on plasma of everybody
      role: reference_standard
      discrepancies: >-
        Discrepant results were not settled again; the reference algorithm ran on all, whatever the rapid result.
      algorithm:
        - assay: H-EIA
          leads_to: { reactive: H-EIA-DUP, nonreactive: negative }
        - assay: H-EIA-DUP
          several: any_reactive
          leads_to: { reactive: H-NEUT, nonreactive: negative }
        - assay: H-NEUT
          leads_to: { reactive: positive, nonreactive: negative, failed: indeterminate }
  - id: anti_hcv
    title: anti-HCV
    reference:
      title: Immunoassay, then immunoblot when reactive; on plasma of everybody
      role: reference_standard
      discrepancies: >-
        Discrepant results were not settled again. RNA was measured to describe viraemia and decides no status.
      algorithm:
        - assay: C-EIA
          leads_to: { reactive: C-BLOT, nonreactive: negative }
        - assay: C-BLOT
          leads_to: { reactive: positive, nonreactive: negative, indeterminate: indeterminate }
      # What is believed of this algorithm itself: the immunoblot misses some whom the immunoassay found.
      errors:
        sensitivity: { believed: 0.94, from: 0.88, to: 0.98 }
        specificity: { believed: 0.9995, from: 0.998, to: 1 }
        # Kit and algorithm are supposed to err independently of one another.
        covariance: { diseased: 0, nondiseased: 0 }
        source: figures of the demonstration, invented
        entered_on: 2026-02-01
`;
}

function results(): string {
  return `# The first specimen type is the primary one.
specimens:
  - { type: venous_whole_blood, title: Venous whole blood }
  - { type: fingerstick, title: Fingerstick blood }

# R1 and R2 read by eye, each blinded to the other; OR is the optical reader. The results of R1 count.
readers:
  use: primary
  primary: R1
`;
}

function criteria(): string {
  const source = "own demonstration protocol, invented";
  const item = (id: string, what: string, importance: string) =>
    `  - id: ${id}\n    ${what}\n    importance: ${importance}\n    source: ${source}\n    entered_on: 2026-02-01\n`;
  const on = (analyte: string, measure: string, specimen: string, limit: string) =>
    `analyte: ${analyte}\n    measure: ${measure}\n    specimen: ${specimen}\n    ${limit}`;
  const venous = "venous_whole_blood";
  return `# Fixed two months before the first person was enrolled. A criterion is met when the whole interval lies on the
# right side of the figure, not met when it lies on the wrong side, and undecided otherwise.
criteria:
${[
  item("hbsag-se", on("hbsag", "sensitivity", venous, "at_least: 0.95"), "primary"),
  item("hbsag-sp", on("hbsag", "specificity", venous, "at_least: 0.98"), "primary"),
  item("hcv-se", on("anti_hcv", "sensitivity", venous, "at_least: 0.95"), "primary"),
  item("hcv-sp", on("anti_hcv", "specificity", venous, "at_least: 0.97"), "primary"),
  item("hcv-se-finger", on("anti_hcv", "sensitivity", "fingerstick", "at_least: 0.98"), "secondary"),
  item("invalid-venous", on("hbsag", "invalid_rate", venous, "at_most: 0.05"), "secondary"),
  item("invalid-finger", on("hbsag", "invalid_rate", "fingerstick", "at_most: 0.05"), "secondary"),
].join("")}
# The kit is recommended only if it reaches every primary criterion.
decision: { control: all_must_pass }
`;
}

function comparisons(): string {
  const item = (id: string, title: string, analyte: string) => `  - id: ${id}
    title: ${title}, fingerstick against venous blood of the same people
    analyte: ${analyte}
    first: { specimen: fingerstick }
    second: { specimen: venous_whole_blood }
    margin: 0.05
    kind: noninferiority
    source: own demonstration protocol, invented
    entered_on: 2026-02-01
`;
  return `# Is fingerstick blood good enough? It may lose five points of sensitivity or specificity, and no more.
comparisons:
${item("hbsag-finger", "HBsAg", "hbsag")}${item("hcv-finger", "anti-HCV", "anti_hcv")}`;
}

function prevalences(): string {
  const source = "planning figures of the demonstration, invented";
  const programme = (id: string, title: string, hbsag: number, hcv: number) =>
    `  - id: ${id}\n    title: ${title}\n    values: { hbsag: ${hbsag}, anti_hcv: ${hcv} }\n    source: ${source}`;
  return `# Where the kit is meant to be used. Predictive values are stated for these, not for the study's own mixture.
prevalences:
${programme("antenatal", "Antenatal care", 0.045, 0.008)}
    # What the register of a year counts with this kit (invented): gives the true prevalence there.
    observed:
      hbsag: { reactive: 861, tested: 18420 }
      anti_hcv: { reactive: 243, tested: 18420 }
${programme("outreach", "Outreach", 0.08, 0.3)}
${programme("blood-exposure", "Blood-exposure clinic", 0.02, 0.012)}
`;
}

function strata(): string {
  return `# Subgroups named before the data were seen (planned: true), and one that was thought of later.
strata:
  - { id: site, title: Site, table: participants, column: site_id, planned: true }
  - { id: lot, title: Lot, table: index_tests, column: lot_id, planned: true }
  - { id: cadre, title: Cadre of the operator, table: operators, column: cadre, planned: true }
  - { id: pregnancy, title: Pregnancy, table: participants, column: pregnant, planned: true }
  - { id: operator, title: Operator, table: index_tests, column: operator_id, planned: true }
  - id: age
    title: Age band
    table: participants
    column: age_band
    ordered: ["15-24", "25-34", "35-44", "45-59", "60+"]
    planned: false

# People of one clinic are more alike than people of different clinics: intervals that allow for it are shown beside.
cluster: site
`;
}

function analysis(seed: number): string {
  return `# Choices that decide results. The report shows what each verdict would be under the other choices.
treatment:
  invalid: set_aside
  outside_window: keep
  repeat: last

interval: { method: clopper_pearson, level: 0.95 }
seed: ${seed}
funding: none; the study is invented and its results are simulated
deviations:
  - Lot Q-103 was delivered to Teroon Lake only, and stood above 30 °C there for more than 14 days in June 2026.
  - Operator OP-05 ran tests although the panel score, 8 of 10, was below the pass mark of 9.
`;
}

function records(): string {
  return `records:
  shape: lines
  participants: participants.csv
  specimens: specimens.csv
  index_tests: index_tests.csv
  line_readings: line_readings.csv
  interpretations: interpretations.csv
  reference_tests: reference_tests.csv
  lots: lots.csv
  operators: operators.csv
`;
}
