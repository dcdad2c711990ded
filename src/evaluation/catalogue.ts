import { catalogue } from "../methods/index.ts";
import { type Source, sources } from "../methods/sources.ts";

/** What the catalogue says of one method, in words: for the report's pages on methods. */
export interface MethodText {
  readonly id: string;
  readonly title: string;
  readonly question: string;
  readonly formula: string;
  readonly caution: string;
  readonly sources: readonly Source[];
}

const known: Readonly<Record<string, Source>> = sources;

/** Every method of the catalogue, in its order. A key without an entry stands for itself. */
export const methodTexts: readonly MethodText[] = catalogue.map(
  ({ id, title, question, formula, caution, sources: keys }) => ({
    id,
    title,
    question,
    formula,
    caution,
    sources: keys.map((key) => known[key] ?? { citation: key, seen: false }),
  }),
);
