import type { ComponentChildren } from "preact";
import type { Accuracy } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { type Cell, cellTitle, speaksOfAgreement, termsOf } from "../names.ts";
import { CountsAndPercent } from "./numbers.tsx";
import { type Column, DataTable } from "./table.tsx";

/** One line of a table that shows what some choice makes of the two measures. */
export interface MeasuresLine extends Pick<Accuracy, "sensitivity" | "specificity"> {
  readonly head: ComponentChildren;
  readonly people?: string | undefined;
}

interface MeasuresGroup {
  readonly cell: Cell;
  readonly lines: readonly MeasuresLine[];
}

interface Props {
  readonly report: Report;
  readonly caption: string;
  readonly lead?: string;
  readonly note?: string;
  /** Head of the first column. */
  readonly head: string;
  /** Head of the column of people, where the lines have one. */
  readonly people?: string;
  readonly groups: readonly MeasuresGroup[];
}

/**
 * The two measures under several choices, cell by cell. Analytes with and without a reference
 * standard have tables of their own: the columns bear other names.
 */
export function TwoMeasures(props: Props) {
  const { report, groups } = props;
  const byReference = [false, true]
    .map((agreement) => groups.filter(({ cell }) => speaksOfAgreement(report, cell.analyte) === agreement))
    .filter((some) => some.length > 0);
  return (
    <>
      {byReference.map((some, place) => (
        <DataTable
          key={place}
          report={report}
          caption={byReference.length === 1 ? props.caption : `${props.caption} (${place + 1})`}
          columns={columnsOf(props, some[0]?.cell.analyte ?? "")}
          groups={some.map(({ cell, lines }) => ({
            analyte: cell.analyte,
            heading: cellTitle(report, cell),
            rows: lines,
          }))}
          {...(place === 0 && props.lead !== undefined ? { lead: props.lead } : {})}
          {...(place === byReference.length - 1 && props.note !== undefined ? { note: props.note } : {})}
        />
      ))}
    </>
  );
}

function columnsOf({ report, head, people }: Props, analyte: string): Column<MeasuresLine>[] {
  const terms = termsOf(report, analyte);
  const { grammar } = report.words;
  return [
    { head, heading: true, cell: (line) => line.head },
    ...(people === undefined
      ? []
      : [{ head: people, kind: "number" as const, cell: (line: MeasuresLine) => line.people ?? "" }]),
    {
      head: grammar.sentence(terms.sensitivity),
      kind: "number",
      cell: (line) => <CountsAndPercent report={report} of={line.sensitivity} />,
    },
    {
      head: grammar.sentence(terms.specificity),
      kind: "number",
      cell: (line) => <CountsAndPercent report={report} of={line.specificity} />,
    },
  ];
}

/** A choice, marked where it is the primary analysis's own. */
export function Choice({ report, name, primary }: { report: Report; name: string; primary: boolean }) {
  const { grammar, page } = report.words;
  return (
    <>
      {grammar.sentence(name)}
      {primary ? <span class="aside"> ({page.primaryAnalysis})</span> : null}
    </>
  );
}
