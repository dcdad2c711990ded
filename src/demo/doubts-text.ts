/** What the demo study file says of people without the reference test, and of tests none of which is beyond doubt. */
export function doubtsText(): string {
  return `# A few people never had the reference test: besides the kit's result, only the clinic decided that.
verification:
  strata: [site]
  # How far it may have hung on the condition itself: odds of being tested, people with it against people without.
  odds_ratio: { from: 0.25, to: 4 }

# What if neither test is beyond doubt? Clinics differ in prevalence, and both tests are supposed to err alike there.
latent_class:
  - id: hcv-sites
    title: anti-HCV by Kit Q and by the laboratory, neither beyond doubt
    analyte: anti_hcv
    tests:
      - { id: rapid, title: "Kit Q, venous blood, by eye" }
      - { id: laboratory, title: Laboratory algorithm, reference: true }
    populations: site
    dependence: independent
    priors:
      rapid:
        sensitivity: { mean: 0.95, percentile: 0.85, chance: 0.05 }
        specificity: { mean: 0.98, percentile: 0.95, chance: 0.05 }
      laboratory:
        sensitivity: { mean: 0.94, percentile: 0.88, chance: 0.05 }
        specificity: { mean: 0.998, percentile: 0.99, chance: 0.05 }
      prevalence: { alpha: 1, beta: 1 }
    source: figures of the demonstration, invented
    entered_on: 2026-02-01
`;
}
