import { FIGURE_STYLES } from "../../report/figures/styles.ts";
import { ALGORITHM_STYLES } from "../../report/styles/algorithm.ts";
import { PAGE_STYLES } from "../../report/styles/page.ts";
import { PLAN_STYLES } from "../../report/styles/plan.ts";
import { printStyles } from "../../report/styles/print.ts";
import { TABLE_STYLES } from "../../report/styles/tables.ts";
import { en } from "../words/en.ts";
import { BENCH_STYLES } from "./bench.ts";
import { CONTROL_STYLES } from "./controls.ts";
import { DRAFT_STYLES } from "./drafts.ts";
import { EXPLORE_STYLES } from "./explore.ts";
import { FORM_STYLES } from "./forms.ts";
import { METHOD_STYLES } from "./methods.ts";
import { VIEW_STYLES } from "./views.ts";

/** All styles of the workbench: the report's own, for the width of its column, and those of what stands around it. */
export function workbenchStyles(): string {
  const report = [FIGURE_STYLES, PAGE_STYLES, TABLE_STYLES, PLAN_STYLES, ALGORITHM_STYLES].join("\n");
  const printed = printStyles(en.bench.pageTitle, en.inReport.page.footer);
  return [
    forColumn(report),
    printed,
    CONTROL_STYLES,
    BENCH_STYLES,
    EXPLORE_STYLES,
    VIEW_STYLES,
    FORM_STYLES,
    METHOD_STYLES,
    DRAFT_STYLES,
  ].join("\n");
}

/** The report's rules for narrow screens, asked of the column that it stands in and not of the window. */
function forColumn(styles: string): string {
  return styles.replace(/@media\s*(?:screen and )?(\((?:min|max)-width:[^)]*\))/g, "@container page $1");
}
