import { hasLines, type Kit } from "../../records/kit.ts";
import type { Report, SectionProps } from "../context.ts";
import { Cassette } from "../figures/cassette.tsx";
import { Drawing } from "../parts/drawing.tsx";
import { KitFacts } from "./kit-facts.tsx";

/** Each kit with its lines and what its instructions say: the main one open, the others folded. */
export function Kits({ report }: SectionProps) {
  const { study: words } = report.words;
  const [main, ...others] = report.evaluation.kits;
  return (
    <>
      <h3>{others.length === 0 ? words.kitHeading : words.kitsHeading}</h3>
      {main === undefined ? null : (
        <>
          {others.length === 0 ? null : <p class="lead">{words.mainKit(main.title)}</p>}
          <OneKit report={report} kit={main} />
        </>
      )}
      {others.map((kit) => (
        <details key={kit.id} class="printed">
          <summary>{report.words.page.other(kit.title)}</summary>
          <OneKit report={report} kit={kit} />
        </details>
      ))}
    </>
  );
}

function OneKit({ report, kit }: { report: Report; kit: Kit }) {
  const titles = Object.fromEntries(report.evaluation.study.analytes.map(({ id, title }) => [id, title]));
  return (
    <>
      {hasLines(kit) ? (
        <Drawing label={report.words.study.cassetteLabel(kit.title)}>
          <Cassette kit={kit} analytes={titles} />
        </Drawing>
      ) : null}
      <KitFacts report={report} kit={kit} />
    </>
  );
}
