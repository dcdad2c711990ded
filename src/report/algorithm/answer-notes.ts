/** Codes of notes that are said elsewhere on the page: in the answer's table of the best, under uncertainty. */
export const ANSWER_NOTES: ReadonlySet<string> = new Set(["surer", "fewer_draws"]);
