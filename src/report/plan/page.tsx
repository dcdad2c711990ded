import { shortHash } from "../formats.ts";
import { PageFrame } from "../html-page.tsx";
import { Contents } from "../sections/contents.tsx";
import type { PlanReport } from "./context.ts";
import { Answer } from "./sections/answer.tsx";
import { Care } from "./sections/care.tsx";
import { Evidence } from "./sections/evidence.tsx";
import { HowMany } from "./sections/how-many.tsx";
import { Title } from "./sections/title.tsx";

/** The body of a plan's page: the answer first, how many to enrol, what it assumes, then the reckoning. */
export function PlanPage({ report }: { report: PlanReport }) {
  const { page, plan } = report.words;
  const { provenance, software, plan: planned } = report.planning;
  return (
    <PageFrame
      skip={plan.skip}
      foot={`${page.footer} ${plan.hashes(shortHash(provenance.planSha256), software, planned.seed)}`}
    >
      <Title report={report} />
      <Answer report={report} />
      <HowMany report={report} />
      <Care report={report} />
      <Contents report={report} />
      <Evidence report={report} />
    </PageFrame>
  );
}
