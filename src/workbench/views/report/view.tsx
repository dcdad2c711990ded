import { en } from "../../../report/words/en.ts";
import { hasStudy, type State, workOf } from "../../state/state.ts";
import { sameStudy } from "../../state/work.ts";
import type { Words } from "../../words/en.ts";
import { ExploreBeside } from "../explore/beside.tsx";
import type { View } from "../view.ts";
import { LiveReport } from "./live-report.tsx";

type Verdict = keyof typeof en.codes.verdicts;

/** The report, live. */
export const reportView: View = {
  id: "report",
  title: (words) => words.report.title,
  status: (state, words) => statusOf(state, words),
  Page: LiveReport,
  Beside: ExploreBeside,
};

function statusOf(state: State, { bench, inReport }: Words): string | null {
  const { shown } = state;
  if (shown === null) return hasStudy(state) ? null : bench.status.noReport;
  if (!sameStudy(shown.of, workOf(state))) return bench.status.earlier;
  const verdicts = Object.keys(en.codes.verdicts) as Verdict[];
  const counted = verdicts.flatMap((verdict) => {
    const count = shown.evaluation.answers.filter((answer) => answer.verdict === verdict).length;
    return count === 0 ? [] : [{ word: inReport.codes.verdicts[verdict], count }];
  });
  return counted.length === 0 ? bench.status.stands : bench.status.verdicts(counted);
}
