import { writeFileSync } from "node:fs";
import type { ComponentProps } from "preact";
import { renderToString as render } from "preact-render-to-string";
import { predictiveCurve } from "../../src/figures/predictive-curve.ts";
import { readingTimeHistogram } from "../../src/figures/reading-time.ts";
import { renderSpecification } from "../../src/figures/render.ts";
import { Cassette } from "../../src/report/figures/cassette.tsx";
import { FlowDiagram } from "../../src/report/figures/flow.tsx";
import { Forest } from "../../src/report/figures/forest.tsx";
import { FourfoldTable } from "../../src/report/figures/fourfold-table.tsx";
import { NaturalFrequencies } from "../../src/report/figures/natural-frequencies.tsx";
import { mostReactive, ReactiveBar } from "../../src/report/figures/reactive-bar.tsx";
import { ReferenceTree } from "../../src/report/figures/reference-tree.tsx";
import { Strip, StripScale } from "../../src/report/figures/strip.tsx";
import { FIGURE_STYLES } from "../../src/report/figures/styles.ts";
import {
  ALGORITHM,
  CROSS_TABULATION,
  EMPTY_FLOW,
  FLOW,
  GRID,
  LONG_FLOW,
  LOOPED,
  NO_CROSS_TABULATION,
  READING,
  SE,
  SP,
  sampleCurve,
  sampleProgrammes,
} from "./samples.ts";

/** A page of every figure, realistic and nasty, to look at: `npx tsx tests/figures/gallery.ts out.html`. */
const HOUSE = [
  ["Antenatal", 0.045],
  ["Outreach", 0.08],
  ["Blood-exposure clinic", 0.02],
] as const;

const POOR_SE = [0.55, 0.68, 0.79] as const;
const POOR_SP = [0.8, 0.86, 0.91] as const;
const FINE_SP = [0.999, 0.99995, 1] as const;

async function charts(): Promise<string[]> {
  const curve = (
    name: string,
    se: readonly [number, number, number],
    sp: readonly [number, number, number],
    named: readonly (readonly [string, number])[],
  ) =>
    renderSpecification(
      predictiveCurve({
        name,
        analyte: "HBsAg",
        level: 0.95,
        curve: sampleCurve(se, sp, GRID),
        programmes: sampleProgrammes(se, sp, named),
      }),
    );
  return [
    await curve("curve-usual", SE, SP, HOUSE),
    await curve("curve-poor", POOR_SE, POOR_SP, [
      ...HOUSE,
      ["Clinic for people who come with symptoms, eastern district", 0.31],
      ["Ward", 0.3],
      ["Blood donors at first donation", 0.0012],
      ["Door to door", 0.021],
    ]),
    await curve("curve-fine", SE, FINE_SP, [
      ["High", 0.62],
      ["Nobody", 0],
      ["Antenatal", 0.008],
      ["Blood exposure", 0.012],
    ]),
    await curve("curve-none", SE, SP, []),
    await renderSpecification(readingTimeHistogram({ name: "time-usual", analyte: "HBsAg", ...READING })),
    await renderSpecification(
      readingTimeHistogram({
        name: "time-few",
        analyte: "HBsAg",
        window: { from: 10, to: 10 },
        people: { early: 0, in: 3, late: 2, unknown: 0 },
        histogram: [
          { from: 10, to: 11, people: 3 },
          { from: 1439, to: 1440, people: 2 },
        ],
      }),
    ),
    await renderSpecification(
      readingTimeHistogram({
        name: "time-none",
        analyte: "HBsAg",
        window: { from: 15, to: 20 },
        people: { early: 0, in: 0, late: 0, unknown: 40 },
        histogram: [],
      }),
    ),
  ];
}

const proportion = (count: number, total: number, lower: number | null, upper: number | null) => ({
  count,
  total,
  value: total === 0 ? null : count / total,
  lower,
  upper,
});

function Strips() {
  const cases: [string, ComponentProps<typeof Strip>][] = [
    [
      "undecided",
      {
        estimate: proportion(111, 113, 0.938, 0.998),
        criterion: 0.95,
        verdict: "undecided",
        domain: [0.85, 1],
      },
    ],
    [
      "met, narrow",
      { estimate: proportion(1541, 1549, 0.99, 0.998), criterion: 0.98, verdict: "met", domain: [0.85, 1] },
    ],
    [
      "met, wide",
      { estimate: proportion(500, 505, 0.975, 0.997), criterion: 0.95, verdict: "met", domain: [0.85, 1] },
    ],
    [
      "not met",
      { estimate: proportion(128, 139, 0.863, 0.96), criterion: 0.98, verdict: "not_met", domain: [0.85, 1] },
    ],
    [
      "not met, narrow",
      {
        estimate: proportion(92000, 100000, 0.919, 0.921),
        criterion: 0.98,
        verdict: "not_met",
        domain: [0.85, 1],
      },
    ],
    [
      "very narrow",
      {
        estimate: proportion(999990, 1000000, 0.99998, 0.999995),
        criterion: 0.98,
        verdict: "met",
        domain: [0.85, 1],
      },
    ],
    [
      "no people",
      {
        estimate: proportion(0, 0, null, null),
        criterion: 0.95,
        verdict: "not_estimable",
        domain: [0.85, 1],
      },
    ],
    ["no limits", { estimate: proportion(9, 10, null, null), criterion: 0.95, domain: [0.85, 1] }],
    [
      "out of scale",
      { estimate: proportion(3, 5, 0.147, 0.947), criterion: 0.8, verdict: "undecided", domain: [0.85, 1] },
    ],
    [
      "open side",
      { estimate: { value: 0.97, lower: null, upper: 0.99 }, criterion: 0.95, domain: [0.85, 1] },
    ],
    [
      "at most",
      {
        estimate: proportion(15, 1579, 0.0053, 0.0156),
        criterion: 0.05,
        direction: "at_most",
        verdict: "met",
        domain: [0, 0.1],
      },
    ],
  ];
  return (
    <table class="fig-forest">
      <thead>
        <tr>
          <th>Strips</th>
          <th class="fig-strips">
            <StripScale domain={[0.85, 1]} />
          </th>
        </tr>
      </thead>
      <tbody>
        {cases.map(([name, props]) => (
          <tr key={name}>
            <th>{name}</th>
            <td class="fig-strips">
              <Strip direction="at_least" {...props} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Forests() {
  const strata = [
    {
      title: "Site",
      planned: true,
      note: "p 0.41 for a difference",
      groups: [
        { label: "Brisselmouth Hospital", estimate: proportion(37, 38, 0.862, 0.999) },
        { label: "Ondavell Clinic", estimate: proportion(28, 28, 0.877, 1) },
        { label: "Teroon Lake Health Centre", estimate: proportion(22, 23, 0.781, 0.999) },
        { label: "Skerrold Outreach Unit", estimate: proportion(14, 14, 0.768, 1) },
        {
          label:
            "Mavenfold Liver Clinic, with the day ward and the two rooms of the harm reduction programme",
          estimate: proportion(10, 10, 0.692, 1),
        },
      ],
    },
    {
      title: "Lot",
      planned: true,
      groups: [
        { label: "Q-101", estimate: proportion(60, 61, 0.912, 0.9996) },
        { label: "Q-102", estimate: proportion(51, 52, 0.897, 0.9995) },
        { label: "Q-103", estimate: proportion(0, 0, null, null) },
      ],
    },
    {
      title: "Months since training",
      planned: false,
      groups: Array.from({ length: 12 }, (_, month) => ({
        label: `${month + 1}`,
        estimate: proportion(9 - (month % 3), 9, 0.4 + 0.02 * month, 1 - 0.01 * (month % 4)),
      })),
    },
  ];
  return (
    <>
      <Forest
        caption="Sensitivity for HBsAg, venous, by group"
        axis="Sensitivity (%)"
        overall={{ label: "All", estimate: proportion(111, 113, 0.938, 0.998) }}
        strata={strata}
        criterion={0.95}
        direction="at_least"
      />
      <Forest
        caption="Specificity for HBsAg, venous, by group"
        axis="Specificity (%)"
        overall={{ label: "All", estimate: proportion(1541, 1549, 0.99, 0.998) }}
        strata={[
          {
            title: "Site",
            planned: true,
            groups: [
              { label: "Brisselmouth Hospital", estimate: proportion(500, 503, 0.983, 0.999) },
              { label: "Ondavell Clinic", estimate: proportion(398, 400, 0.982, 0.9994) },
            ],
          },
        ]}
        criterion={0.98}
        direction="at_least"
      />
    </>
  );
}

function Flows() {
  return (
    <>
      <FlowDiagram flow={FLOW} />
      <br />
      <br />
      <FlowDiagram flow={LONG_FLOW} />
      <br />
      <br />
      <FlowDiagram flow={EMPTY_FLOW} />
    </>
  );
}

function Tables() {
  const bars = [
    ["Antenatal", 442, 50],
    ["Outreach", 786, 48],
    ["Blood-exposure clinic", 196, 51],
    ["Very rare", 0.4, 52],
    ["Nothing", null, null],
  ] as const;
  const most = mostReactive(
    bars.map(([, truePositives, falsePositives]) => ({ truePositives, falsePositives })),
  );
  return (
    <>
      <FourfoldTable
        caption="People by rapid and reference result: HBsAg, venous"
        crossTabulation={CROSS_TABULATION}
      />
      <br />
      <FourfoldTable caption="Nobody" crossTabulation={NO_CROSS_TABULATION} />
      <br />
      <table class="fig-forest">
        <tbody>
          {bars.map(([name, truePositives, falsePositives]) => (
            <tr key={name}>
              <th>{name}</th>
              <td>
                <ReactiveBar truePositives={truePositives} falsePositives={falsePositives} most={most} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <br />
      <NaturalFrequencies
        title="1,000 people at the antenatal clinic"
        truePositives={442}
        falseNegatives={8}
        falsePositives={50}
        trueNegatives={9500}
      />
      <br />
      <NaturalFrequencies
        title="1,000 people of a high-prevalence place"
        truePositives={2600}
        falseNegatives={400}
        falsePositives={700}
        trueNegatives={6300}
      />
    </>
  );
}

function Drawings() {
  const kit = (tests: readonly string[]): ComponentProps<typeof Cassette>["kit"] => ({
    title: "Kit Q",
    faint_line: "reactive",
    lines: [
      { id: "C", role: "control" },
      ...tests.map((analyte, index) => ({ id: `T${index + 1}`, role: "test" as const, analyte })),
    ],
  });
  return (
    <>
      <ReferenceTree analyte="HBsAg" algorithm={ALGORITHM} />
      <br />
      <ReferenceTree analyte="anti-HCV" algorithm={LOOPED} />
      <br />
      <ReferenceTree
        analyte="HBsAg"
        algorithm={[
          { assay: "culture", several: "last", leads_to: { reactive: "positive", nonreactive: "negative" } },
        ]}
      />
      <ReferenceTree analyte="HBsAg" algorithm={undefined} />
      <Cassette kit={kit(["hbsag", "anti_hcv"])} analytes={{ hbsag: "HBsAg", anti_hcv: "anti-HCV" }} />
      <br />
      <Cassette kit={kit(["hbsag"])} />
      <br />
      <Cassette kit={kit(["igg", "igm", "antigen of the second kind", "d"])} />
    </>
  );
}

const LOOK = `body{margin:2rem auto;max-width:60rem;padding:0 2.4rem;font:16px/1.5 Charter,Georgia,serif;background:var(--paper);color:var(--ink)}h2{font-size:1rem;margin:2.5rem 0 .8rem;color:var(--muted);font-weight:400;border-top:1px solid var(--rule)}.fig-forest{margin-bottom:2rem}`;

async function page(): Promise<string> {
  const started = performance.now();
  const drawn = await charts();
  console.log(
    `${drawn.length} charts in ${Math.round(performance.now() - started)} ms, ${drawn.join("").length} bytes`,
  );
  const parts: [string, string][] = [
    ["strips", render(<Strips />)],
    ["forests", render(<Forests />)],
    ["flows", render(<Flows />)],
    ["tables", render(<Tables />)],
    ["drawings", render(<Drawings />)],
    ["charts", drawn.join("<br>")],
  ];
  const [, , , only, theme = "light", filter = "none"] = process.argv;
  const body = parts
    .filter(([name]) => only === undefined || only === "all" || only === name)
    .map(([name, html]) => `<h2>${name}</h2>${html}`);
  return `<!doctype html><html lang="en" data-theme="${theme}"><meta charset="utf-8"><title>Gallery</title><style>${FIGURE_STYLES}${LOOK}html{filter:${filter}}</style><body>${body.join("\n")}`;
}

const target = process.argv[2];
if (target === undefined) throw new Error("expected the path of the page to write");
page().then((html) => writeFileSync(target, html));
