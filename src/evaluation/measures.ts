/** The two measures of accuracy, in the order in which they are given everywhere. */
export const MEASURES = ["sensitivity", "specificity"] as const;
export type MeasureName = (typeof MEASURES)[number];
