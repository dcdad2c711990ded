/** Names of the page's charts, fit to name files. */
export const SUMMARY_PLOT = "summary-plot";
export const SMALL_STUDY_FUNNEL = "small-study-funnel";
