import { count } from "../../formats.ts";
import { Facts } from "../../parts/facts.tsx";
import { Section } from "../../parts/section.tsx";
import { DataTable } from "../../parts/table.tsx";
import type { PoolSectionProps } from "../context.ts";

/** Where the counts come from; which files and software the page was made from. */
export function Provenance({ report }: PoolSectionProps) {
  const { provenance: shared } = report.words;
  const { provenance: words } = report.words.pool;
  const { provenance, software, file, format, version } = report.pooling;
  return (
    <Section report={report} id="provenance">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={shared.caption}
        columns={[
          { head: shared.columns.file, heading: true, cell: (input) => input.name },
          { head: shared.columns.bytes, kind: "number", cell: (input) => count(input.bytes) },
          { head: shared.columns.hash, cell: (input) => <code>{input.sha256}</code> },
        ]}
        groups={[{ rows: provenance.inputs }]}
      />
      <Facts
        items={[
          [words.source, file.source],
          [words.fileHash, <code key="file">{provenance.fileSha256}</code>],
          [shared.facts.software, software],
          [words.format, shared.format(format, version)],
        ]}
      />
      <DataTable
        report={report}
        caption={shared.methodsCaption}
        columns={[
          { head: shared.methodColumns.id, heading: true, cell: (method) => method.id },
          { head: shared.methodColumns.version, kind: "number", cell: (method) => count(method.version) },
        ]}
        groups={[{ rows: provenance.methods }]}
      />
    </Section>
  );
}
