import type { Subgroup } from "../../evaluation/document.ts";
import { MEASURES, type MeasureName as Measure } from "../../evaluation/measures.ts";
import type { Report, SectionProps } from "../context.ts";
import { figureWords } from "../figure-words.ts";
import { Forest } from "../figures/forest.tsx";
import * as formats from "../formats.ts";
import { type Cell, cellTitle, sameCell, siteTitle, termsOf, worded } from "../names.ts";
import { MainOrFolded } from "../parts/main-or-folded.tsx";
import { Notes } from "../parts/notes.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";

/** Groups of people side by side, planned or not, with tests that they share one value. */
export function Subgroups({ report }: SectionProps) {
  const { subgroups: words } = report.words;
  const all = report.evaluation.subgroups;
  const cells = all.filter((one, place) => all.findIndex((other) => sameCell(one, other)) === place);
  const tests = all.flatMap((one) => MEASURES.filter((measure) => one.homogeneity[measure] !== null)).length;
  return (
    <Section report={report} id="subgroups">
      <p>{words.lead}</p>
      {tests > 1 ? <p>{words.multiplicity(tests)}</p> : null}
      {cells.map((cell, place) => (
        <AnalytePart key={place} analyte={cell.analyte}>
          <MainOrFolded report={report} cell={cell} cells={cells}>
            {MEASURES.map((measure) => (
              <MeasurePart
                key={measure}
                report={report}
                cell={cell}
                measure={measure}
                strata={all.filter((one) => sameCell(one, cell))}
              />
            ))}
            <Notes report={report} notes={notesOf(all.filter((one) => sameCell(one, cell)))} />
          </MainOrFolded>
        </AnalytePart>
      ))}
    </Section>
  );
}

function notesOf(strata: readonly Subgroup[]) {
  return strata.flatMap((one) => MEASURES.flatMap((measure) => one.homogeneity[measure]?.notes ?? []));
}

interface MeasureProps {
  readonly report: Report;
  readonly cell: Cell;
  readonly measure: Measure;
  readonly strata: readonly Subgroup[];
}

function MeasurePart({ report, cell, measure, strata }: MeasureProps) {
  const { subgroups: words, page } = report.words;
  const { accuracy, answers } = report.evaluation;
  const overall = accuracy.find((one) => sameCell(one, cell))?.[measure];
  const criterion = answers.find((answer) => sameCell(answer, cell) && answer.measure === measure);
  const name = termsOf(report, cell.analyte)[measure];
  if (overall === undefined) return null;
  const caption = words.caption(name, cellTitle(report, cell));
  return (
    <div class="table-block long">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section class="table" tabIndex={0} aria-label={page.region(caption)}>
        <Forest
          caption={caption}
          axis={words.axis(name)}
          overall={{ label: words.overall, estimate: overall }}
          criterion={criterion?.threshold}
          direction={criterion?.direction}
          strata={strata.map((one) => ({
            title: one.title,
            planned: one.planned,
            note: testText(report, one, measure),
            groups: one.groups
              .filter((group) => group[measure].total > 0)
              .map((group) => ({
                label: groupTitle(report, one, group.group),
                estimate: group[measure],
              })),
          }))}
          words={figureWords(report, cell.analyte)}
        />
      </section>
    </div>
  );
}

/** Sites have titles in the study file; other groups are what the tables call them. */
function groupTitle(report: Report, subgroup: Subgroup, group: string): string {
  const stratum = report.evaluation.study.strata.find(({ id }) => id === subgroup.stratum);
  if (stratum?.column.startsWith("site") === true) return siteTitle(report, group);
  return Object.hasOwn(report.words.reasons, group) ? worded(report.words.reasons, group) : group;
}

/** The tests of one stratum in a few words: "chi-square 2.31 on 4 degrees of freedom, p 0.68". */
function testText(report: Report, subgroup: Subgroup, measure: Measure): string {
  const { subgroups: words } = report.words;
  const tests = subgroup.homogeneity[measure];
  if (tests === null) return words.noTest;
  const { chiSquare, degreesOfFreedom, pValue, exactPValue, trendPValue } = tests;
  const parts = [
    chiSquare === null || degreesOfFreedom === null || pValue === null
      ? null
      : words.chiSquare(
          formats.statistic(chiSquare),
          formats.stated(degreesOfFreedom),
          formats.pValue(pValue),
        ),
    exactPValue === null ? null : words.exact(formats.pValue(exactPValue)),
    trendPValue === null ? null : words.trend(formats.pValue(trendPValue)),
  ].filter((part) => part !== null);
  return parts.length === 0 ? words.noTest : words.homogeneity(parts);
}
