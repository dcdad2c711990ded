import type { SectionProps } from "../context.ts";
import { Section } from "../parts/section.tsx";
import { DiscrepantWarning } from "./discrepant-warning.tsx";
import { LatentModel } from "./latent-model.tsx";
import { PartlyVerified } from "./partly-verified.tsx";
import { ReferenceErrs } from "./reference-errs.tsx";

/** How much the reference matters: its own errors, people who did not have it, retests of a few, no reference at all. */
export function ReferenceMatters({ report }: SectionProps) {
  const { referenceErrors, verification, discrepant, latentClass } = report.evaluation;
  return (
    <Section report={report} id="reference">
      <p>{report.words.reference.lead}</p>
      {referenceErrors.map((errors, place) => (
        <ReferenceErrs
          key={place}
          report={report}
          errors={errors}
          explained={place === 0}
          stated={referenceErrors.findIndex(({ analyte }) => analyte === errors.analyte) === place}
        />
      ))}
      {verification.map((partly, place) => (
        <PartlyVerified
          key={place}
          report={report}
          partly={partly}
          cells={verification}
          explained={place === 0}
        />
      ))}
      {discrepant === null ? null : <DiscrepantWarning report={report} discrepant={discrepant} />}
      {latentClass.map((model) => (
        <LatentModel key={model.id} report={report} model={model} />
      ))}
    </Section>
  );
}
