import type { VNode } from "preact";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { minuteAccuracy } from "../../src/figures/minute-accuracy.ts";
import { predictiveCurve } from "../../src/figures/predictive-curve.ts";
import { readingTimeHistogram } from "../../src/figures/reading-time.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import { Cassette } from "../../src/report/figures/cassette.tsx";
import { DifferenceStrip } from "../../src/report/figures/difference-strip.tsx";
import { FlowDiagram } from "../../src/report/figures/flow.tsx";
import { NaturalFrequencies } from "../../src/report/figures/natural-frequencies.tsx";
import { ReactiveBar } from "../../src/report/figures/reactive-bar.tsx";
import { ReferenceTree } from "../../src/report/figures/reference-tree.tsx";
import { Strip, StripScale } from "../../src/report/figures/strip.tsx";
import { TwoByTwo } from "../../src/report/figures/two-by-two.tsx";
import { golden } from "./golden.ts";
import {
  ALGORITHM,
  FLOW,
  GRID,
  KIT,
  LONG_FLOW,
  MINUTES,
  READING,
  SE,
  SP,
  sampleCurve,
  sampleProgrammes,
} from "./samples.ts";

const DRAWN: [string, VNode][] = [
  [
    "strip-undecided",
    <Strip
      estimate={{ value: 111 / 113, lower: 0.938, upper: 0.998 }}
      criterion={0.95}
      direction="at_least"
      verdict="undecided"
      domain={[0.85, 1]}
    />,
  ],
  [
    "strip-not-met",
    <Strip
      estimate={{ value: 128 / 139, lower: 0.863, upper: 0.96 }}
      criterion={0.98}
      direction="at_least"
      verdict="not_met"
      domain={[0.85, 1]}
    />,
  ],
  [
    "strip-narrow",
    <Strip
      estimate={{ value: 0.995, lower: 0.99, upper: 0.998 }}
      criterion={0.98}
      direction="at_least"
      verdict="met"
      domain={[0.85, 1]}
    />,
  ],
  [
    "difference-strip",
    <DifferenceStrip
      difference={{ value: -0.072, lower: -0.133, upper: -0.034 }}
      domain={[-0.15, 0.05]}
      margin={{ margin: 0.05, kind: "noninferiority", verdict: "undecided" }}
    />,
  ],
  [
    "two-by-two",
    <TwoByTwo
      caption="Devices by two readers"
      row="Reader A"
      column="Reader B"
      answers={["reactive", "non-reactive"]}
      counts={[108, 14, 9, 1510]}
      notes={["both reactive", "A only", "B only", "both non-reactive"]}
      all="All"
    />,
  ],
  ["strip-scale", <StripScale domain={[0.85, 1]} />],
  ["flow", <FlowDiagram flow={FLOW} />],
  ["flow-long", <FlowDiagram flow={LONG_FLOW} />],
  [
    "natural-frequencies",
    <NaturalFrequencies
      title="Antenatal clinic"
      truePositives={442}
      falseNegatives={8}
      falsePositives={50}
      trueNegatives={9500}
    />,
  ],
  ["reactive-bar", <ReactiveBar truePositives={442} falsePositives={50} most={834} />],
  ["reference-tree", <ReferenceTree analyte="HBsAg" algorithm={ALGORITHM} />],
  ["cassette", <Cassette kit={KIT} analytes={{ hbsag: "HBsAg", anti_hcv: "anti-HCV" }} />],
];

describe("layouts as they were last looked at", () => {
  it.each(DRAWN)("%s", (name, figure) => {
    expect(golden(name, renderToString(figure))).toBe("same");
  });

  it("predictive-curve", async () => {
    const named = [
      ["Antenatal", 0.045],
      ["Outreach", 0.08],
      ["Blood-exposure clinic", 0.02],
    ] as const;
    const specification = predictiveCurve({
      name: "curve",
      analyte: "HBsAg",
      level: 0.95,
      curve: sampleCurve(SE, SP, GRID),
      programmes: sampleProgrammes(SE, SP, named),
    });
    expect(golden("predictive-curve", await renderSpecification(specification))).toBe("same");
  });

  it("minutes", async () => {
    const specification = minuteAccuracy(MINUTES);
    expect(golden("minutes", await renderSpecification(specification))).toBe("same");
  });

  it("reading-time", async () => {
    const specification = readingTimeHistogram({ name: "times", analyte: "HBsAg", ...READING });
    expect(golden("reading-time", await renderSpecification(specification))).toBe("same");
  });
});
