import type { SectionProps } from "../context.ts";
import { Accuracy } from "./accuracy.tsx";
import { AcrossSites } from "./across-sites.tsx";
import { Cautions } from "./cautions.tsx";
import { Checklist } from "./checklist.tsx";
import { Comparisons } from "./comparisons.tsx";
import { Decision } from "./decision.tsx";
import { DetectionLimit } from "./detection-limit.tsx";
import { Flow } from "./flow.tsx";
import { InstrumentReadings } from "./instrument-readings.tsx";
import { Invalid } from "./invalid.tsx";
import { Joint } from "./joint.tsx";
import { Methods } from "./methods.tsx";
import { Participants } from "./participants.tsx";
import { Predictive } from "./predictive.tsx";
import { Provenance } from "./provenance.tsx";
import { Queries } from "./queries.tsx";
import { Readers } from "./readers.tsx";
import { ReadingTime } from "./reading-time.tsx";
import { ReferenceMatters } from "./reference-matters.tsx";
import { StudyAndKit } from "./study-and-kit.tsx";
import { Subgroups } from "./subgroups.tsx";
import { TruePrevalence } from "./true-prevalence.tsx";
import { Typed } from "./typed.tsx";

/** Every section of the evidence, in order; each is silent where the evaluation has nothing for it. */
export function Evidence({ report }: SectionProps) {
  return (
    <>
      <StudyAndKit report={report} />
      <Flow report={report} />
      <Participants report={report} />
      <Queries report={report} />
      <Accuracy report={report} />
      <Decision report={report} />
      <ReferenceMatters report={report} />
      <Joint report={report} />
      <Invalid report={report} />
      <Comparisons report={report} />
      <Subgroups report={report} />
      <AcrossSites report={report} />
      <Predictive report={report} />
      <TruePrevalence report={report} />
      <Readers report={report} />
      <ReadingTime report={report} />
      <Typed report={report} />
      <InstrumentReadings report={report} />
      <DetectionLimit report={report} />
      <Methods report={report} />
      <Checklist report={report} />
      <Cautions report={report} />
      <Provenance report={report} />
    </>
  );
}
