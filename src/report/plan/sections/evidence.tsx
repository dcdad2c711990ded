import type { PlanSectionProps } from "../context.ts";
import { Agreement } from "./agreement.tsx";
import { Cautions } from "./cautions.tsx";
import { Comparisons } from "./comparisons.tsx";
import { Criteria } from "./criteria.tsx";
import { Effort } from "./effort.tsx";
import { Enrolment } from "./enrolment.tsx";
import { Methods } from "./methods.tsx";
import { Precision } from "./precision.tsx";
import { Provenance } from "./provenance.tsx";
import { Stopping } from "./stopping.tsx";
import { Together } from "./together.tsx";
import { WhatIf } from "./what-if.tsx";

/** Every section of the reckoning, in order; each is silent where the plan does not ask. */
export function Evidence({ report }: PlanSectionProps) {
  return (
    <>
      <Criteria report={report} />
      <Precision report={report} />
      <Enrolment report={report} />
      <Together report={report} />
      <Comparisons report={report} />
      <Agreement report={report} />
      <Stopping report={report} />
      <WhatIf report={report} />
      <Effort report={report} />
      <Methods report={report} />
      <Cautions report={report} />
      <Provenance report={report} />
    </>
  );
}
