/** The plan of the invented study. The same text as `data/plan/plan.yaml`. */
export const PLAN_EXAMPLE = `# SELBRIA-HEP-2: an invented plan. The Republic of Selbria, its clinics and Kit Q do not exist; every figure is made up.
# It plans the study that would settle what the demo study left undecided.
format: fourfold-plan/1
id: SELBRIA-HEP-2
title: Second field evaluation of Kit Q for HBsAg and anti-HCV, Republic of Selbria (invented)
kit: kit.yaml

# How common each analyte is among the people who will be enrolled, and how sure that is: \`value\` where it is known,
# \`positive\` and \`tested\` where people were counted before, \`low\` and \`high\` where only a range is.
analytes:
  - id: hbsag
    title: HBsAg
    reference: Immunoassay, repeated in duplicate when reactive, then neutralisation
    prevalence: { positive: 84, tested: 1385 }
  - id: anti_hcv
    title: anti-HCV
    reference: Immunoassay, then immunoblot when reactive
    prevalence: { low: 0.05, high: 0.08 }

specimens:
  - { type: venous_whole_blood, title: Venous whole blood }

# What is demanded, and what the kit is expected to have. The whole interval must lie on the right side.
criteria:
  - id: hbsag-se
    analyte: hbsag
    measure: sensitivity
    at_least: 0.95
    expected: 0.985
    source: own demonstration protocol, invented
    entered_on: 2026-11-02
  - id: hbsag-sp
    analyte: hbsag
    measure: specificity
    at_least: 0.98
    expected: 0.995
    source: own demonstration protocol, invented
    entered_on: 2026-11-02
  - id: hcv-se
    analyte: anti_hcv
    measure: sensitivity
    at_least: 0.95
    expected: 0.99
    source: own demonstration protocol, invented
    entered_on: 2026-11-02
  - id: hcv-sp
    analyte: anti_hcv
    measure: specificity
    at_least: 0.97
    expected: 0.988
    source: own demonstration protocol, invented
    entered_on: 2026-11-02
  - id: invalid
    analyte: hbsag
    measure: invalid_rate
    at_most: 0.05
    expected: 0.02
    importance: secondary
    source: own demonstration protocol, invented
    entered_on: 2026-11-02

# The kit is recommended only if it reaches every primary criterion: then all of them together must have the power.
decision: { control: all_must_pass }
power: 0.8
interval: { method: clopper_pearson, level: 0.95 }

# People of one site are more alike than people of different sites.
alike: { icc: 0.002, clusters: 6 }

# How strongly being right on one analyte goes with being right on the other, and how many people have both.
together: { correlation: 0.1, both_positive: 0.008 }

recruitment:
  assurance: 0.9
  invalid: 0.012
  lost: 0.03
  unverified: 0.02
  sites:
    - { id: B, title: Brisselmouth Hospital, per_day: 12 }
    - { id: O, title: Ondavell Clinic, per_day: 8 }
    - { id: T, title: Teroon Lake Health Centre, per_day: 7 }
    - { id: K, title: Skerrold Outreach Unit, per_day: 5, opens_after: 10 }
    - { id: L, title: Mavenfold Liver Clinic, per_day: 3, opens_after: 10 }
    - { id: D, title: Dorrenhythe Clinic, per_day: 6, opens_after: 20 }

costs:
  unit: credits
  fixed: 18000
  per_site: 2500
  per_day: 140
  per_person: 4
  per_kit: 2.1
  per_reference: 11
  spare_kits: 0.05

# How wide the intervals may be, whatever the criteria.
widths:
  - id: hbsag-width
    title: HBsAg sensitivity to within three points
    analyte: hbsag
    measure: sensitivity
    expected: 0.985
    half_width: 0.03

# Other kits beside it: on the same people, or each kit on people of its own, who are then enrolled besides.
comparisons:
  - id: q-against-r
    title: Kit Q against Kit R on the same people
    analyte: hbsag
    measure: sensitivity
    design: paired
    first: { title: Kit Q, expected: 0.985 }
    second: { title: Kit R, expected: 0.98 }
    discordant: 0.025
    margin: 0.05
    source: own demonstration protocol, invented
  - id: q-or-w
    title: Kit Q or Kit W, each on its own people
    analyte: anti_hcv
    measure: specificity
    design: unpaired
    first: { title: Kit Q, expected: 0.988 }
    second: { title: Kit W, expected: 0.96 }

agreement:
  - id: two-readers
    title: Two readers of HBsAg
    kappa: 0.9
    reactive_first: 0.07
    reactive_second: 0.07
    half_width: 0.06

# A kit that is no good should not be tried on everybody.
stopping:
  - id: hbsag-early
    criterion: hbsag-se
    design: two_stage
    unacceptable: 0.9
    error: 0.05
    power: 0.9
    largest: 150
  - id: hcv-looks
    criterion: hcv-se
    design: group_sequential
    unacceptable: 0.95
    error: 0.025
    looks: [0.5, 0.75, 1]
    spending: obrien_fleming

what_if:
  - criterion: hbsag-se

seed: 20261102
`;
