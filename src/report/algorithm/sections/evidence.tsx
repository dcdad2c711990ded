import type { AlgorithmSectionProps } from "../context.ts";
import { Cautions } from "./cautions.tsx";
import { Costs } from "./costs.tsx";
import { DependencePart } from "./dependence.tsx";
import { Given } from "./given.tsx";
import { Kits } from "./kits.tsx";
import { Methods } from "./methods.tsx";
import { Observed } from "./observed.tsx";
import { PredictiveValues } from "./predictive.tsx";
import { Provenance } from "./provenance.tsx";
import { Search } from "./search.tsx";
import { Together } from "./together.tsx";
import { Tree } from "./tree.tsx";
import { Uncertainty } from "./uncertainty.tsx";

/** Every section of the reckoning, in order; each is silent where the file does not ask. */
export function Evidence({ report }: AlgorithmSectionProps) {
  return (
    <>
      <Tree report={report} />
      <PredictiveValues report={report} />
      <DependencePart report={report} />
      <Uncertainty report={report} />
      <Search report={report} />
      <Kits report={report} />
      <Costs report={report} />
      <Observed report={report} />
      <Together report={report} />
      <Given report={report} />
      <Methods report={report} />
      <Cautions report={report} />
      <Provenance report={report} />
    </>
  );
}
