/** Codes of notes that are said elsewhere on the page: in the sentences of the answer. */
export const ANSWER_NOTES: ReadonlySet<string> = new Set(["surer"]);
