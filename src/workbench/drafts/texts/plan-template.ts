/** The template of a plan, to be filled in. The same text as `data/template-plan/plan.yaml`. */
export const PLAN_TEMPLATE = `# The plan file: what is demanded of a kit, what is expected of it, and how people will come in. Replace the
# examples, which belong to an invented study, by your own; then run \`fourfold plan\` on the folder. With
# \`--study\` it also makes a study folder with the criteria already in it.
#
# How to write it: one field on a line, \`name: value\`; what belongs to a field stands below it, moved in by
# two spaces. A line that begins with # is a remark and is not read. Proportions are written 0.95, never 95 %.
# Short names (ids) are made of letters, digits, full stop, hyphen and underscore.

# What this file is, and its version. Leave it as it stands.
format: fourfold-plan/1

# A short name of the study that is planned, and the title of the page.
id: MY-STUDY
title: Field evaluation of Kit X for HBsAg and anti-HCV at two clinics

# The file that describes the kit. Leave it out if there is none yet: the study folder then holds one to fill in.
kit: kit.yaml

# What the kit looks for, and how common it is among the people who will be enrolled. The prevalence is
#   { value: 0.06 }                  taken as known exactly
#   { positive: 24, tested: 400 }    people counted before: the fewer they were, the more must be enrolled
#   { a: 12, b: 188 }                a beta distribution
#   { low: 0.04, high: 0.08 }        a range: enough positives even at its low end
analytes:
  - id: hbsag
    title: HBsAg
    # The test or algorithm that decides who has the condition, in words.
    reference: Immunoassay, repeated in duplicate when reactive, then neutralisation
    prevalence: { positive: 24, tested: 400 }
  - id: anti_hcv
    title: anti-HCV
    reference: Immunoassay, then immunoblot when reactive
    prevalence: { low: 0.04, high: 0.08 }

# Specimen types to be analysed; the primary one first.
specimens:
  - { type: venous_whole_blood, title: Venous whole blood }

# What the kit has to reach (\`at_least\` or \`at_most\`), where that figure comes from, and what the kit is expected
# to have in truth (\`expected\`): the nearer the two, the more people it takes. Fields as in a study file.
criteria:
  - id: hbsag-se
    analyte: hbsag
    # \`sensitivity\`, \`specificity\` or \`invalid_rate\`.
    measure: sensitivity
    at_least: 0.95
    expected: 0.985
    # \`interval\` (the whole two-sided interval decides), \`one_sided\` or \`point\`.
    rule: interval
    # \`primary\` or \`secondary\`.
    importance: primary
    source: the study's own protocol, version 1.0, page 8
    entered_on: 2026-01-15
    # The probability wanted that it is met, if other than the plan's.
    # power: 0.9
  - id: hbsag-sp
    analyte: hbsag
    measure: specificity
    at_least: 0.98
    expected: 0.995
    source: the study's own protocol, version 1.0, page 8
    entered_on: 2026-01-15

# How the criteria are judged together: each, all_must_pass, holm or fixed_sequence. Where all must pass, the
# power below is for all primary criteria together, and each needs more.
decision: { control: each }

# The probability wanted that a criterion is met if the kit is as good as expected.
power: 0.8

# The interval: clopper_pearson (exact), mid_p, blaker, wilson, wilson_corrected, jeffreys, agresti_coull or
# likelihood_ratio; and its confidence level.
interval: { method: clopper_pearson, level: 0.95 }

# People of one site are more alike than people of different sites: \`icc\` says how much, from other studies. Then
# either how many sites there will be (\`clusters\`), or how many people of each kind at one of them (\`size\`);
# \`cv\`, how much sites differ in size, may be added. Leave it out only if people are independent.
alike: { icc: 0.002, clusters: 2 }

# Of two analytes in the same people: how strongly being right on one goes with being right on the other, and the
# share of people who have both. Leave it out if nothing is known.
# together: { correlation: 0.1, both_positive: 0.005 }

# How people come in.
recruitment:
  # The probability wanted that enough people of each kind are enrolled.
  assurance: 0.9
  # Shares without a valid result of the kit, lost before both tests were done, without a reference result.
  invalid: 0.01
  lost: 0.03
  unverified: 0.02
  # People enrolled on a working day, on average; \`opens_after\`: working days after the first site.
  sites:
    - { id: S1, title: First clinic, per_day: 12 }
    - { id: S2, title: Second clinic, per_day: 8, opens_after: 10 }

# Costs in any one money. Leave them out if you have none.
costs:
  unit: credits
  fixed: 10000
  per_site: 2000
  per_day: 100
  per_person: 4
  per_kit: 2
  per_reference: 11
  kits_per_person: 1
  # Kits ordered beyond those used, as a share.
  spare_kits: 0.05

# How wide an interval may be, whatever the criteria: half its length, and how surely.
widths:
  - id: hbsag-width
    title: HBsAg sensitivity to within four points
    analyte: hbsag
    measure: sensitivity
    expected: 0.985
    half_width: 0.04
    assurance: 0.9

# Comparisons with other kits: \`paired\`, both kits on the same people, or \`unpaired\`, each on people of its own.
# \`first\` is the kit of the criteria. With a \`margin\` (the largest tolerable loss) the question is whether it is
# no worse by more than that; without one, whether the two differ. \`discordant\`, of paired kits: the share of
# people for whom just one of them is right; leave it out if unknown.
# comparisons:
#   - id: x-against-y
#     title: Kit X against Kit Y on the same people
#     analyte: hbsag
#     measure: sensitivity
#     design: paired
#     first: { title: Kit X, expected: 0.985 }
#     second: { title: Kit Y, expected: 0.98 }
#     discordant: 0.025
#     margin: 0.05
#     source: the study's own protocol, version 1.0, page 9

# Agreement of two readers: the kappa expected, the share that each calls reactive, and how closely it is to be
# known.
# agreement:
#   - { id: readers, title: Two readers, kappa: 0.9, reactive_first: 0.07, reactive_second: 0.07, half_width: 0.1 }

# Looks at the data before the end, for a criterion of \`at_least\`. \`two_stage\` stops a bad kit early;
# \`group_sequential\` looks at the shares of the final number that \`looks\` names.
# stopping:
#   - { id: early, design: two_stage, criterion: hbsag-se, unacceptable: 0.9, error: 0.05, largest: 150 }
#   - { id: looks, design: group_sequential, criterion: hbsag-se, unacceptable: 0.95, looks: [0.5, 1] }

# Other values of what was assumed, in a table: \`expected\`, \`thresholds\`, \`prevalences\`, or what lies around.
what_if:
  - criterion: hbsag-se

# Any whole number from 0 to 4294967295; starts the random streams of simulated results.
seed: 1
`;
