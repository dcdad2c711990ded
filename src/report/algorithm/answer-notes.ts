/** Codes of notes that are said elsewhere on the page: in sentences, or in the box of what to mind. */
export const ANSWER_NOTES: ReadonlySet<string> = new Set(["independence_assumed"]);
