import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import { dependenceSweep } from "../../figures/dependence-sweep.ts";
import { predictiveMap } from "../../figures/predictive-map.ts";
import { renderSpecification } from "../../figures/render.ts";
import type { Specification } from "../../figures/specification.ts";
import { stepwisePredictive } from "../../figures/stepwise-predictive.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { en, type Words } from "../words/en.ts";
import type { AlgorithmReport } from "./context.ts";
import { algorithmFigureName } from "./figure-names.ts";
import { algorithmTitle, channelTitle, kitTitle, pairTitle } from "./names.ts";
import { sweepGroups, sweepTitle } from "./sweeps.ts";

type Named = Pick<RenderedFigure, "name" | "spec">;

/**
 * Draws the charts of an algorithms document, in the order in which its page shows them. The command line writes
 * the specifications to files and hands the drawings to `renderAlgorithms`.
 */
export async function renderAlgorithmFigures(
  algorithms: Algorithms,
  words: Words = en,
): Promise<RenderedFigure[]> {
  const source: AlgorithmReport = { algorithms, words, figures: new Map(), methodTexts: [], contents: [] };
  const named = [...stepwiseFigures(source), ...sweepFigures(source), ...mapFigures(source)];
  const figures: RenderedFigure[] = [];
  for (const { name, spec } of named) {
    figures.push({ name, spec, svg: await renderSpecification(spec) });
  }
  return figures;
}

function drawn(name: string, make: (name: string) => Specification): Named {
  return { name, spec: make(name) };
}

function stepwiseFigures(source: AlgorithmReport): Named[] {
  const { predictive, answer } = source.algorithms;
  return predictive.flatMap((one, place) =>
    one.points.length < 2
      ? []
      : [
          drawn(algorithmFigureName("stepwise", place, one.algorithm), (name) =>
            stepwisePredictive({
              name,
              algorithm: algorithmTitle(source, one.algorithm),
              kits: one.tests.map(({ kit }) => kitTitle(source, kit)),
              points: one.points,
              target: answer.target,
              channels: channelsOf(source, one.analyte),
            }),
          ),
        ],
  );
}

/** The channels with their prevalence of one analyte, at its centre. */
function channelsOf(source: AlgorithmReport, analyte: string) {
  const { lines } = source.algorithms.answer;
  const ids = [...new Set(lines.filter((line) => line.analyte === analyte).map(({ channel }) => channel))];
  return ids.flatMap((id) => {
    const line = lines.find((one) => one.channel === id && one.analyte === analyte);
    return line === undefined
      ? []
      : [{ title: channelTitle(source, id), prevalence: Number(line.prevalence.toPrecision(3)) }];
  });
}

function sweepFigures(source: AlgorithmReport): Named[] {
  return sweepGroups(source).map((group, place) =>
    drawn(algorithmFigureName("sweep", place, group.algorithm), (name) =>
      dependenceSweep({
        name,
        pair: sweepTitle(source, group),
        over: group.over,
        stated: group.sweeps[0]?.stated.nondiseased ?? 0,
        target: source.algorithms.answer.target,
        lines: group.sweeps.map(({ channel, nondiseased }) => ({
          title: channelTitle(source, channel),
          points: nondiseased,
        })),
      }),
    ),
  );
}

function mapFigures(source: AlgorithmReport): Named[] {
  return source.algorithms.dependence.twoWay.map((map, place) =>
    drawn(algorithmFigureName("map", place, map.algorithm), (name) =>
      predictiveMap({
        name,
        pair: pairTitle(source, map.first, map.second),
        cells: map.cells,
        target: source.algorithms.answer.target,
      }),
    ),
  );
}
