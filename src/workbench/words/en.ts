import { type Words as ReportWords, en as reportWords } from "../../report/words/en.ts";
import { bench, steps, trouble } from "./en/bench.ts";
import { drafts } from "./en/drafts.ts";
import { explore } from "./en/explore.ts";
import { forms } from "./en/forms.ts";
import { mapping } from "./en/mapping.ts";
import { mend } from "./en/mend.ts";
import { methods } from "./en/methods.ts";
import { report } from "./en/report.ts";
import { save } from "./en/save.ts";
import { study } from "./en/study.ts";

/** Every word of the workbench in English; a translation is another object of this shape. */
const own = { bench, drafts, explore, steps, trouble, study, report, save, forms, mapping, mend, methods };

/** The shape of the words: any text may stand where English has a certain one. */
type Translatable<Part> = Part extends string
  ? string
  : Part extends (...facts: never[]) => unknown
    ? Part
    : { readonly [Key in keyof Part]: Translatable<Part[Key]> };

export type Words = Translatable<typeof own> & {
  readonly language: string;
  /** The report's own words. */
  readonly inReport: ReportWords;
};

export const en: Words = { language: "en", inReport: reportWords, ...own };
