/** The template of an algorithm file, to be filled in. The same text as `data/template-algorithm/algorithm.yaml`. */
export const ALGORITHM_TEMPLATE = `# The algorithm file: kits, how far they are wrong about the same people, who is tested where, and what is done after
# each result. Replace the examples, which belong to an invented programme, by your own; then run
# \`fourfold algorithm\` on the folder.
#
# How to write it: one field on a line, \`name: value\`; what belongs to a field stands below it, moved in by
# two spaces. A line that begins with # is a remark and is not read. Proportions are written 0.95, never 95 %.
# Short names (ids) are made of letters, digits, full stop, hyphen and underscore.

# What this file is, and its version. Leave it as it stands.
format: fourfold-algorithm/1

# A short name of the programme, and the title of the page.
id: MY-PROGRAMME
title: Testing for HBsAg at two kinds of clinic

# What is tested for: one analyte, or two.
analytes:
  - { id: hbsag, title: HBsAg }

# The kits, and methods of a laboratory. Sensitivity and specificity are each
#   { right: 197, total: 200 }    people rightly called, of those tested: the fewer, the less sure the answer
#   { value: 0.985 }              taken as known exactly
#   { a: 197.5, b: 3.5 }          a beta distribution
#   { low: 0.96, high: 0.99 }     a range
# A kit that shows two analytes names both: one device is then used, and paid, once for both.
kits:
  - id: X
    title: Kit X
    # Kits with the same antigens (or antibodies) inside tend to be wrong about the same people.
    antigens: first-maker
    analytes:
      hbsag:
        sensitivity: { right: 197, total: 200 }
        specificity: { right: 995, total: 1000 }
    # Runs without a valid result: \`invalid\` of \`tested\`, or a value, range or beta distribution as above.
    invalid: { invalid: 10, tested: 1200 }
    # Of one kit: { value: 1.5 } or { low: 1.2, high: 1.8 }.
    price: { value: 1.5 }
    # Minutes until the result is there; needed only if the targets speak of minutes, or for a search.
    minutes: 20
    # The share of kits lost before use, and how many are in a pack.
    waste: 0.03
    pack: 25
  - id: Y
    title: Kit Y
    antigens: second-maker
    analytes:
      hbsag:
        sensitivity: { right: 195, total: 200 }
        specificity: { right: 998, total: 1000 }
    invalid: { value: 0.01 }
    price: { value: 1.9 }
    minutes: 20
    waste: 0.03
    pack: 25

# How far two kits are wrong about the same people. It must be stated as soon as anybody is tested twice.
#   kind: pairs         a correlation of errors for every two kits, among the truly positive and the truly negative:
#                       0 for independent errors. Or \`counts\` of both kits on the same people, as the second pair
#                       below would have them. \`repeat\` is for two runs of the same kit, \`others\` for pairs not named.
#   kind: shared        one effect that all kits share: \`positive\` and \`negative\` say how wide it spreads, from 0;
#                       \`same_kit: { positive, negative }\` what runs of one kit share besides.
#   kind: independent   no dependence at all. It is seldom true, and makes positives look surer than they are.
dependence:
  kind: pairs
  pairs:
    - { kits: [X, Y], positive: 0.1, negative: 0.05 }
    # - kits: [X, Y]
    #   counts:
    #     positive: { both: 190, first: 5, second: 4, neither: 1 }
    #     negative: { both: 1, first: 4, second: 6, neither: 1489 }
  repeat: { positive: 0.7, negative: 0.6 }

# Where people are tested: how many in a year (\`clients\`), how common each analyte is among them (\`positive\` of
# \`tested\`, a value, a range or a beta distribution), and which share of those without a decision comes back.
channels:
  - id: antenatal
    title: Antenatal clinics
    clients: 20000
    prevalence:
      hbsag: { positive: 90, tested: 2000 }
    return: 0.6
  - id: outreach
    title: Outreach
    clients: 5000
    prevalence:
      hbsag: { low: 0.06, high: 0.1 }
    return: 0.4

# The algorithms to be compared. The usual ones by name (\`preset\`) with their kits in the order of use:
#   single, serial_confirm (the next kit only after a reactive result), parallel (all kits, any reactive),
#   tie_breaker (a third kit where two differ), consecutive_two, consecutive_three, laboratory_confirm.
# \`discordant\`, with serial_confirm: what a result that isn't confirmed means, negative or inconclusive.
# \`again\`: how often an invalid run is repeated at once. \`retest_after\`: days until inconclusive people are tested
# anew; leave it out if nobody is.
algorithms:
  - id: x-then-y
    title: Kit X, then Kit Y when reactive
    analyte: hbsag
    preset: serial_confirm
    kits: [X, Y]
    discordant: inconclusive
    again: 1
    retest_after: 14
    # The one that the page leads with.
    main: true
  - id: x-alone
    title: Kit X alone
    analyte: hbsag
    preset: single
    kits: [X]
  # Or step by step, the first step first: where each result leads, to another step or to positive, negative or
  # inconclusive; \`invalid\` after the last repeat.
  # - id: my-own
  #   title: Kit X, then Kit Y, drawn step by step
  #   analyte: hbsag
  #   steps:
  #     - { id: first, kit: X, reactive: second, nonreactive: negative, again: 1, invalid: inconclusive }
  #     - { id: second, kit: Y, reactive: positive, nonreactive: inconclusive, again: 1, invalid: inconclusive }

# Costs in any one money. \`per_client\`: of testing one person, kits left out. What one false positive and one missed
# person cost may be left out.
costs:
  unit: credits
  per_client: 0.6
  # per_false_positive: 40
  # per_missed: 90

# What an algorithm must reach to be called the best. All may be left out: \`ppv\`, \`npv\` (shares of positive and
# negative results that must be right), \`most_inconclusive\`, \`most_minutes\`, \`different_antigens: true\`.
targets: { ppv: 0.99 }

# Every usual algorithm of these kits, up to so many tests, so that no good one is overlooked; \`repeat: true\` lets a
# kit come twice. Leave it out if no search is wanted.
search: { kits: [X, Y], most_tests: 2 }

# What a register says: of those tested with the first kit, how many were reactive, and of those, how many the second
# kit called non-reactive.
# observed:
#   - { channel: antenatal, algorithm: x-then-y, tested: 10000, first_reactive: 480, second_nonreactive: 20 }

# The risk allowed of running out of kits before the year is over.
order: { risk: 0.05 }

# The level of every interval; how often what is uncertain is drawn; and any whole number that starts the draws.
level: 0.95
draws: 10000
seed: 1
`;
