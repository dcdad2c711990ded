/**
 * The intervals of a single proportion that a study may choose, the default first. They are named here once:
 * study files ask for them, the catalogue computes them (and, for teaching, the Wald intervals besides).
 */
export const STUDY_INTERVALS = [
  "clopper_pearson",
  "mid_p",
  "blaker",
  "wilson",
  "wilson_corrected",
  "jeffreys",
  "agresti_coull",
  "likelihood_ratio",
] as const;
