import { count, stated } from "../../formats.ts";
import { Facts } from "../../parts/facts.tsx";
import { Section } from "../../parts/section.tsx";
import { DataTable } from "../../parts/table.tsx";
import type { PlanSectionProps } from "../context.ts";

/** Which files, software and seed the plan was made from. */
export function Provenance({ report }: PlanSectionProps) {
  const { provenance: shared } = report.words;
  const { provenance: words } = report.words.plan;
  const { provenance, software, plan, format, version } = report.planning;
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
          [words.planHash, <code key="plan">{provenance.planSha256}</code>],
          [shared.facts.software, software],
          [shared.facts.seed, stated(plan.seed)],
          [words.format, shared.format(format, version)],
        ]}
      />
      {provenance.methods.length === 0 ? null : (
        <DataTable
          report={report}
          caption={shared.methodsCaption}
          columns={[
            { head: shared.methodColumns.id, heading: true, cell: (method) => method.id },
            { head: shared.methodColumns.version, kind: "number", cell: (method) => count(method.version) },
          ]}
          groups={[{ rows: provenance.methods }]}
        />
      )}
    </Section>
  );
}
