import type { Agreement } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { Forest } from "../figures/forest.tsx";
import { FIGURE_WORDS } from "../figures/words.ts";
import * as formats from "../formats.ts";
import { siteTitle, worded } from "../names.ts";
import { pairCell, pairTitle } from "../reader-names.ts";

type Disagreement = Agreement["disagreements"][number];
const KINDS = ["line", "window", "lot", "operator", "site"] as const;

interface PairProps {
  readonly report: Report;
  readonly pair: Agreement;
}

/** Where two readers disagree: the share of devices on which they differ, group by group. */
export function Disagreements({ report, pair }: PairProps) {
  const { readers: words, page } = report.words;
  const overall = discordantOf(pair);
  if (pair.disagreements.length === 0 || overall.count === 0) return null;
  const caption = words.whereCaption(pairTitle(report, pair), pairCell(report, pair));
  return (
    <div class="table-block long">
      <FaintText report={report} pair={pair} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section class="table" tabIndex={0} aria-label={page.region(caption)}>
        <Forest
          caption={caption}
          axis={words.whereAxis}
          direction="at_most"
          overall={{ label: words.overall, estimate: overall }}
          strata={KINDS.flatMap((by) => {
            const groups = pair.disagreements.filter((one) => one.by === by);
            if (groups.length === 0) return [];
            const title = words.by[by](report.words.general.reader(pair.first));
            const rows = groups.map((one) => ({ label: labelOf(report, one), estimate: one.discordant }));
            return [{ title, planned: null, groups: rows }];
          })}
          words={{ ...FIGURE_WORDS, forest: { ...FIGURE_WORDS.forest, counts: words.whereCounts } }}
        />
      </section>
    </div>
  );
}

/** The complement of the overall agreement. */
function discordantOf({ overall }: Agreement): Disagreement["discordant"] {
  const { count, total, value, lower, upper } = overall;
  const flipped = (share: number | null) => (share === null ? null : 1 - share);
  return {
    count: total - count,
    total,
    value: flipped(value),
    lower: flipped(upper),
    upper: flipped(lower),
  };
}

function labelOf(report: Report, { by, group }: Disagreement): string {
  const { readers: words, codes, reasons } = report.words;
  if (by === "line") return worded(words.lines, group);
  if (by === "window") return worded(codes.windows, group);
  if (by === "site") return siteTitle(report, group);
  return Object.hasOwn(reasons, group) ? worded(reasons, group) : group;
}

/** How much of the disagreement sits on faint lines: the first question anyone asks. */
function FaintText({ report, pair }: PairProps) {
  const lines = pair.disagreements.filter(({ by }) => by === "line");
  const faint = lines.find(({ group }) => group === "faint")?.discordant;
  if (faint === undefined || faint.total === 0) return null;
  const others = lines.filter(({ group }) => group !== "faint").map(({ discordant }) => discordant);
  const sum = (of: "count" | "total") => others.reduce((all, one) => all + one[of], 0);
  const all = faint.count + sum("count");
  return (
    <p class="lead">
      {report.words.readers.faint(
        formats.countOf(faint.count, faint.total),
        formats.countOf(sum("count"), sum("total")),
        formats.countOf(faint.count, all),
      )}
    </p>
  );
}
