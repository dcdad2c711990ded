/** The invented testing algorithms. The same text as `data/algorithm/algorithm.yaml`. */
export const ALGORITHM_EXAMPLE = `# SELBRIA-HEP-ALG: an invented programme. The Republic of Selbria, its clinics and Kits Q, R, V and W do not exist;
# every figure is made up. Which second test should follow Kit Q? Kit R is the cheapest, but it is wrong about the
# same people as Kit Q; Kit V costs more, and reaches the target more surely.
format: fourfold-algorithm/1
id: SELBRIA-HEP-ALG
title: Which test after Kit Q? HBsAg and anti-HCV in the Republic of Selbria (invented)

analytes:
  - { id: hbsag, title: HBsAg }
  - { id: anti_hcv, title: anti-HCV }

# What is known of each kit, from studies: people rightly called, of those tested. Kit Q shows both analytes on one
# cassette, which is used, and paid, once for both.
kits:
  - id: Q
    title: Kit Q, dual cassette (invented)
    antigens: q-line
    analytes:
      hbsag:
        sensitivity: { right: 94, total: 98 }
        specificity: { right: 1492, total: 1498 }
      anti_hcv:
        sensitivity: { right: 128, total: 134 }
        specificity: { right: 1443, total: 1462 }
    invalid: { invalid: 19, tested: 1656 }
    price: { value: 2.1 }
    minutes: 20
    waste: 0.03
    pack: 25
  - id: R
    title: Kit R (invented)
    # The maker of Kit R buys its antibodies where the maker of Kit Q does.
    antigens: q-line
    analytes:
      hbsag:
        sensitivity: { right: 197, total: 200 }
        specificity: { right: 498, total: 500 }
    invalid: { invalid: 6, tested: 706 }
    price: { value: 1.4 }
    minutes: 15
    waste: 0.03
    pack: 40
  - id: V
    title: Kit V (invented)
    antigens: v-line
    analytes:
      hbsag:
        sensitivity: { right: 198, total: 200 }
        specificity: { right: 796, total: 800 }
    invalid: { invalid: 9, tested: 1009 }
    price: { low: 1.8, high: 2 }
    minutes: 20
    waste: 0.03
    pack: 25
  - id: W
    title: Kit W (invented)
    antigens: w-line
    analytes:
      anti_hcv:
        sensitivity: { right: 196, total: 200 }
        specificity: { right: 597, total: 600 }
    invalid: { invalid: 8, tested: 808 }
    price: { value: 1.75 }
    minutes: 20
    waste: 0.03
    pack: 25
  # A laboratory method. RNA is found in those with antibodies who have the virus still, some 72 of a hundred: a
  # result without RNA does not say that the antibodies were not there, and is called inconclusive below.
  - id: RNA
    title: HCV RNA in the laboratory
    antigens: none
    analytes:
      anti_hcv:
        sensitivity: { right: 101, total: 140 }
        specificity: { right: 799, total: 800 }
    invalid: { value: 0.01 }
    price: { value: 25 }
    minutes: 2880

# How far two kits are wrong about the same people: the correlation of their errors, among the truly positive and the
# truly negative. For Q and R both were used on the same people, so that it is estimated from counts.
dependence:
  kind: pairs
  pairs:
    - kits: [Q, R]
      analyte: hbsag
      counts:
        positive: { both: 379, first: 5, second: 15, neither: 1 }
        negative: { both: 1, first: 11, second: 11, neither: 2977 }
    - { kits: [Q, V], analyte: hbsag, positive: 0.05, negative: 0.02 }
    - { kits: [R, V], analyte: hbsag, positive: 0.05, negative: 0.03 }
    - { kits: [Q, W], analyte: anti_hcv, positive: 0.08, negative: 0.04 }
    - { kits: [Q, RNA], analyte: anti_hcv, positive: 0.03, negative: 0 }
    - { kits: [W, RNA], analyte: anti_hcv, positive: 0.03, negative: 0 }
  # A second run of the same kit in the same person mostly repeats its error.
  repeat: { positive: 0.7, negative: 0.6 }

# Where people are tested: how many in a year, how common each analyte is among them, and how many of those
# without a decision come back.
channels:
  - id: antenatal
    title: Antenatal clinics
    clients: 150000
    prevalence:
      hbsag: { positive: 180, tested: 4000 }
      anti_hcv: { positive: 32, tested: 4000 }
    return: 0.62
  - id: outreach
    title: Outreach
    clients: 54000
    prevalence:
      hbsag: { positive: 120, tested: 1500 }
      anti_hcv: { low: 0.25, high: 0.35 }
    return: 0.62
  - id: exposure
    title: Blood-exposure clinic
    clients: 36000
    prevalence:
      hbsag: { positive: 24, tested: 1200 }
      anti_hcv: { positive: 14, tested: 1200 }
    return: 0.62

algorithms:
  - id: hbsag-q-r
    title: Kit Q, then Kit R when reactive
    analyte: hbsag
    preset: serial_confirm
    kits: [Q, R]
    discordant: inconclusive
    retest_after: 14
    main: true
  - id: hbsag-q-v
    title: Kit Q, then Kit V when reactive
    analyte: hbsag
    preset: serial_confirm
    kits: [Q, V]
    discordant: inconclusive
    retest_after: 14
  - id: hbsag-q
    title: Kit Q alone
    analyte: hbsag
    preset: single
    kits: [Q]
  # Drawn step by step: three kits, all of them reactive.
  - id: hbsag-q-r-v
    title: Kit Q, then Kit R, then Kit V
    analyte: hbsag
    steps:
      - { id: first, kit: Q, reactive: second, nonreactive: negative, again: 1, invalid: inconclusive }
      - { id: second, kit: R, reactive: third, nonreactive: inconclusive, again: 1, invalid: third }
      - { id: third, kit: V, reactive: positive, nonreactive: inconclusive }
  - id: hcv-q-w
    title: Kit Q, then Kit W when reactive
    analyte: anti_hcv
    preset: serial_confirm
    kits: [Q, W]
    discordant: inconclusive
    retest_after: 14
    main: true
  - id: hcv-q
    title: Kit Q alone
    analyte: anti_hcv
    preset: single
    kits: [Q]
  - id: hcv-q-rna
    title: Kit Q, then HCV RNA when reactive
    analyte: anti_hcv
    preset: serial_confirm
    kits: [Q, RNA]
    discordant: inconclusive

costs:
  unit: credits
  per_client: 0.6
  per_false_positive: 40
  per_missed: 90

# What an algorithm must reach to be called the best: own demonstration protocol, invented.
targets: { ppv: 0.99, most_inconclusive: 0.02 }

search: { kits: [Q, R, V, W], most_tests: 3 }

# What the register of the antenatal clinics says of last year.
observed:
  - { channel: antenatal, algorithm: hbsag-q-r, tested: 41600, first_reactive: 1873, second_nonreactive: 108 }

order: { risk: 0.05 }
level: 0.95
draws: 10000
seed: 20261116
`;
