import type { AlgorithmSearch, Algorithms } from "../../evaluation/algorithm/document.ts";
import { bestByPrevalence } from "../../figures/best-by-prevalence.ts";
import { costFrontier } from "../../figures/cost-frontier.ts";
import { dependenceSweep } from "../../figures/dependence-sweep.ts";
import { predictiveMap } from "../../figures/predictive-map.ts";
import { renderSpecification } from "../../figures/render.ts";
import type { Specification } from "../../figures/specification.ts";
import { stepwisePredictive } from "../../figures/stepwise-predictive.ts";
import { tornado } from "../../figures/tornado.ts";
import * as formats from "../formats.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { en, type Words } from "../words/en.ts";
import type { AlgorithmReport } from "./context.ts";
import { algorithmFigureName } from "./figure-names.ts";
import { algorithmOf, channelTitle, kitName, pairTitle, unitOf } from "./names.ts";
import { chancesOf, searchedTitle, standingsAt, stretchesOf, withoutTwins } from "./search-names.ts";
import { sweepGroups, sweepTitle } from "./sweeps.ts";
import { namedBars, outcomeText, shownTornadoes } from "./tornado-names.ts";

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
  const named = [
    ...stepwiseFigures(source),
    ...sweepFigures(source),
    ...mapFigures(source),
    ...tornadoFigures(source),
    ...searchFigures(source),
  ];
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
              algorithm: algorithmOf(source, one.algorithm),
              kits: one.tests.map(({ kit }) => kitName(source, kit)),
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
    return line === undefined ? [] : [{ title: channelTitle(source, id), prevalence: line.prevalence }];
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

function tornadoFigures(source: AlgorithmReport): Named[] {
  const { tornado: words } = source.words.algorithm;
  return shownTornadoes(source).flatMap(({ one, place }) => {
    const { outcome } = one.moved.input;
    const { centre } = one.moved.values;
    const bars = namedBars(source, one);
    if (centre === null || bars.length === 0) return [];
    const money = outcome === "cost";
    const title = source.words.grammar.sentence(words.outcomes[outcome]);
    return [
      drawn(algorithmFigureName("tornado", place, `${one.algorithm}-${outcome}`), (name) =>
        tornado({
          name,
          outcome: money ? words.axis.money(title, unitOf(source)) : words.axis.share(title),
          centre,
          bars,
          format: outcomeText(one),
          labelExpr: money ? "format(datum.value, '.4~r')" : "format(datum.value * 100, '.4~r')",
        }),
      ),
    ];
  });
}

function searchFigures(source: AlgorithmReport): Named[] {
  return source.algorithms.frontier.flatMap((found, place) => {
    const { search, analyte } = found;
    if (search === null) return [];
    const best = drawn(algorithmFigureName("best", place, analyte), (name) =>
      bestByPrevalence({
        name,
        stretches: stretchesOf(search).map(({ best: id, from, to }) => ({
          name: searchedTitle(source, search, id),
          from,
          to,
        })),
        chances: chancesOf(search).map(({ id, points }) => ({
          name: searchedTitle(source, search, id) ?? id,
          points,
        })),
        channels: found.channels.map(({ channel, prevalence }) => ({
          title: channelTitle(source, channel),
          prevalence,
        })),
      }),
    );
    return [best, ...frontierFigures(source, found)];
  });
}

function frontierFigures(source: AlgorithmReport, { analyte, search, channels }: AlgorithmSearch): Named[] {
  if (search === null) return [];
  return channels.flatMap(({ channel, prevalence, best }, at) => {
    const standings = withoutTwins(standingsAt(search, prevalence)?.notBeaten ?? [], best);
    const points = standings.flatMap(({ algorithm, cost, falsePositives, missed, keeps }) =>
      cost === null || falsePositives === null || missed === null
        ? []
        : [
            {
              name: searchedTitle(source, search, algorithm) ?? algorithm,
              cost,
              falsePositives,
              missed,
              keeps,
              best: algorithm === best,
            },
          ],
    );
    if (points.length === 0) return [];
    return [
      drawn(algorithmFigureName("frontier", at, `${analyte}-${channel}`), (name) =>
        costFrontier({
          name,
          channel: channelTitle(source, channel),
          unit: unitOf(source),
          points,
          people: formats.expectedFew,
          money: formats.ratio,
        }),
      ),
    ];
  });
}
