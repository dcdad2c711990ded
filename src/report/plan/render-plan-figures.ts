import type { Planning, StoppingPlan } from "../../evaluation/plan/document.ts";
import { enrolmentChance } from "../../figures/enrolment-chance.ts";
import { powerSawTooth } from "../../figures/power-saw-tooth.ts";
import { renderSpecification } from "../../figures/render.ts";
import type { Specification } from "../../figures/specification.ts";
import { stoppingLooks } from "../../figures/stopping-looks.ts";
import { whatIfSizes } from "../../figures/what-if-sizes.ts";
import type { RenderedFigure } from "../render-figures.ts";
import { en, type Words } from "../words/en.ts";
import type { PlanReport } from "./context.ts";
import { planFigureName } from "./figure-names.ts";
import { criterionName, criterionOf, demandOf, groupName, measureOf, plannedTitle } from "./names.ts";

type Named = Pick<RenderedFigure, "name" | "spec">;
/** What names are made from. */
type Source = PlanReport;

/**
 * Draws the charts of a plan, in the order in which its page shows them. The command line writes the
 * specifications to files and hands the drawings to `renderPlan`.
 */
export async function renderPlanFigures(planning: Planning, words: Words = en): Promise<RenderedFigure[]> {
  const source: Source = { planning, words, figures: new Map(), methodTexts: [], contents: [] };
  const named = [
    ...powerFigures(source),
    ...enrolmentFigures(source),
    ...stoppingFigures(source),
    ...whatIfFigures(source),
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

function powerFigures(source: Source): Named[] {
  const { grammar } = source.words;
  return source.planning.criteria.flatMap((line, place) =>
    line.curve.length < 2
      ? []
      : [
          drawn(planFigureName("power", place, line.criterion), (name) =>
            powerSawTooth({
              name,
              criterion: criterionName(source, line.criterion),
              people: grammar.sentence(groupName(source, line.analyte, line.of)),
              curve: line.curve,
              power: line.power,
              first: line.size.values.first.total,
              stays: line.size.values.stays.total,
            }),
          ),
        ],
  );
}

function enrolmentFigures(source: Source): Named[] {
  const { assurance } = source.planning.answer;
  return source.planning.enrolment.flatMap(({ analyte, curve, enrolment }, place) =>
    curve.length < 2
      ? []
      : [
          drawn(planFigureName("enrolment", place, analyte), (name) =>
            enrolmentChance({
              name,
              analyte: plannedTitle(source, analyte),
              curve,
              assurance,
              naive: enrolment?.values.naive.total ?? null,
              assured:
                enrolment?.values.targets.find((target) => target.assurance === assurance)?.total ?? null,
            }),
          ),
        ],
  );
}

/** A rule whose looks can be drawn, with the name that the document gives it. */
export interface DrawnRule {
  readonly name: "smallestExpected" | "minimax" | "sequential";
  readonly looks: readonly {
    readonly total: number;
    readonly passFrom: number | null;
    readonly failAt: number | null;
  }[];
  readonly expected: number;
  readonly unacceptable: number;
}

export function rulesOf({ twoStage, groupSequential }: StoppingPlan): DrawnRule[] {
  const rules: DrawnRule[] = [];
  if (twoStage !== null) {
    const { input, values } = twoStage;
    for (const name of ["smallestExpected", "minimax"] as const) {
      const design = values[name];
      if (design !== null) rules.push({ name, looks: design.looks, ...input });
    }
  }
  if (groupSequential !== null && groupSequential.values.looks.length > 0) {
    const { expected, unacceptable } = groupSequential.input;
    rules.push({ name: "sequential", looks: groupSequential.values.looks, expected, unacceptable });
  }
  return rules;
}

export function ruleTitle(source: PlanReport, plan: StoppingPlan, rule: DrawnRule): string {
  const criterion = criterionOf(source, plan.criterion);
  const name = criterion === undefined ? plan.criterion : measureOf(source, criterion);
  return source.words.plan.stopping.ruleTitle(name, rule.name);
}

function stoppingFigures(source: Source): Named[] {
  return source.planning.stopping.flatMap((plan, place) =>
    rulesOf(plan).map((rule) =>
      drawn(planFigureName("looks", place, `${plan.stopping}-${rule.name}`), (name) =>
        stoppingLooks({
          name,
          rule: ruleTitle(source, plan, rule),
          looks: rule.looks,
          expected: rule.expected,
          unacceptable: rule.unacceptable,
        }),
      ),
    ),
  );
}

function whatIfFigures(source: Source): Named[] {
  const { grammar } = source.words;
  return source.planning.whatIf.flatMap(({ criterion: id, grid }, place) => {
    const criterion = criterionOf(source, id);
    if (criterion === undefined) return [];
    const { direction, threshold } = demandOf(criterion);
    const of = source.planning.criteria.find((line) => line.criterion === id)?.of ?? grid.input.of;
    return [
      drawn(planFigureName("what-if", place, id), (name) =>
        whatIfSizes({
          name,
          criterion: measureOf(source, criterion),
          people: grammar.sentence(groupName(source, criterion.analyte, of)),
          direction,
          cells: grid.values.cells,
          plan: { expected: criterion.expected, threshold },
        }),
      ),
    ];
  });
}
