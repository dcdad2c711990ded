import type { Accuracy } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { figureWords } from "../figure-words.ts";
import { FourfoldTable } from "../figures/fourfold-table.tsx";
import { cellTitle } from "../names.ts";

/** All people by both results, before any treatment; the four counts of the analysis stand out. */
export function CrossTable(props: { report: Report; cell: Accuracy; explained: boolean }) {
  const { report, cell } = props;
  const { accuracy: words, page } = report.words;
  const caption = words.crossCaption(cellTitle(report, cell));
  return (
    <div class="table-block">
      {props.explained ? <p class="lead">{words.crossLead}</p> : null}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section class="table" tabIndex={0} aria-label={page.region(caption)}>
        <FourfoldTable
          caption={caption}
          crossTabulation={cell.crossTabulation}
          words={figureWords(report, cell.analyte).fourfold}
        />
      </section>
    </div>
  );
}
