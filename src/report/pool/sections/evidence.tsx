import type { PoolSectionProps } from "../context.ts";
import { Cautions } from "./cautions.tsx";
import { LeftOut } from "./left-out.tsx";
import { Levels } from "./levels.tsx";
import { Methods } from "./methods.tsx";
import { Models } from "./models.tsx";
import { Plot } from "./plot.tsx";
import { Provenance } from "./provenance.tsx";
import { SmallStudies } from "./small.tsx";
import { Studies } from "./studies.tsx";
import { Without } from "./without.tsx";

/** Every section of the evidence, in order; each is silent where the studies give it nothing. */
export function Evidence({ report }: PoolSectionProps) {
  return (
    <>
      <Studies report={report} />
      <Plot report={report} />
      <Without report={report} />
      <Levels report={report} />
      <SmallStudies report={report} />
      <Models report={report} />
      <LeftOut report={report} />
      <Methods report={report} />
      <Cautions report={report} />
      <Provenance report={report} />
    </>
  );
}
