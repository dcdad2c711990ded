import type { SectionProps } from "../context.ts";
import { count, stated } from "../formats.ts";
import { Facts } from "../parts/facts.tsx";
import { Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";

/** Which files, plan, software and seed the report was made from. */
export function Provenance({ report }: SectionProps) {
  const { provenance: words } = report.words;
  const { provenance, software, study, format, version } = report.evaluation;
  return (
    <Section report={report} id="provenance">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={[
          { head: words.columns.file, heading: true, cell: (input) => input.name },
          { head: words.columns.bytes, kind: "number", cell: (input) => count(input.bytes) },
          {
            head: words.columns.rows,
            kind: "number",
            cell: (input) => (input.rows === null ? "" : count(input.rows)),
          },
          { head: words.columns.hash, cell: (input) => <code>{input.sha256}</code> },
        ]}
        groups={[{ rows: provenance.inputs }]}
      />
      <Facts
        items={[
          [words.facts.data, <code key="data">{provenance.dataSha256}</code>],
          [words.facts.plan, <code key="plan">{provenance.planSha256}</code>],
          [words.facts.software, software],
          [words.facts.seed, stated(study.seed)],
          [words.facts.format, words.format(format, version)],
        ]}
      />
      {provenance.methods.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.methodsCaption}
          columns={[
            { head: words.methodColumns.id, heading: true, cell: (method) => method.id },
            { head: words.methodColumns.version, kind: "number", cell: (method) => count(method.version) },
          ]}
          groups={[{ rows: provenance.methods }]}
        />
      )}
    </Section>
  );
}
