import * as formats from "../../formats.ts";
import { planRows } from "../answer-rows.ts";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { criterionName, criterionOf, demandOf, groupName, measureOf, needName, powerText } from "../names.ts";
import { PlanNotes } from "../parts.tsx";
import { AnswerTable } from "./answer-table.tsx";

/** Said elsewhere on the page: in the sentences, at the criteria, under what the plan assumes. */
const SAID = new Set(["second_group", "not_planned", "independent_people"]);

/** The answer: how many people, what decides it, how sure it is, what it takes; then each criterion. */
export function Answer({ report }: PlanSectionProps) {
  const { plan: words } = report.words;
  const groups = planRows(report);
  return (
    <section id="answer" aria-labelledby="answer-heading">
      <h2 id="answer-heading">{words.answer.heading}</h2>
      <p class="headline">
        <Headline report={report} />
      </p>
      <p class="together">{furtherSentences(report).join(" ")}</p>
      {groups.length === 0 ? null : <AnswerTable report={report} groups={groups} />}
      <p class="how">{howToRead(report)}</p>
      <PlanNotes report={report} notes={report.planning.notes.filter(({ code }) => !SAID.has(code))} />
    </section>
  );
}

function Headline({ report }: PlanSectionProps) {
  const { answer: words } = report.words.plan;
  const { enrol, assurance, deciding } = report.planning.answer;
  if (enrol === null) return <>{words.noEnrol}</>;
  const { widths, comparisons } = report.planning;
  const needed = neededBy(report);
  const lacking = primaryOut(report).map((id) => criterionName(report, id));
  const needsAll = report.planning.plan.decision.control === "all_must_pass";
  return (
    <>
      {lacking.length === 0 ? null : <>{words.cannotShow(lacking, needsAll)} </>}
      <b>{lacking.length === 0 ? words.enrol(enrol) : words.enrolForRest(enrol)}</b>{" "}
      {deciding === null || needed === null
        ? words.assured(assurance)
        : words.because(
            assurance,
            needed,
            groupName(report, deciding.analyte, deciding.of),
            askedBy(report, deciding.because),
            report.planning.criteria.length + widths.length + comparisons.length === 1,
          )}
    </>
  );
}

/** Primary criteria that can't be planned: said before any number. */
function primaryOut({ planning: { answer, plan } }: PlanReport): string[] {
  const primary = plan.criteria.filter(({ importance }) => importance === "primary");
  return primary.map(({ id }) => id).filter((id) => answer.criteria.out.includes(id));
}

/** How many are needed of those who decide. */
function neededBy({ planning: { answer } }: PlanReport): number | null {
  const { deciding } = answer;
  if (deciding === null) return null;
  return answer.byAnalyte.find(({ analyte }) => analyte === deciding.analyte)?.[deciding.of].needed ?? null;
}

/** "HBsAg sensitivity of at least 95 %", or the title of what else asks for people. */
function askedBy(report: PlanReport, id: string): string {
  const criterion = criterionOf(report, id);
  const { plan } = report.words;
  if (criterion === undefined) return plan.answer.needOfOther(needName(report, id));
  const { direction, threshold } = demandOf(criterion);
  return plan.answer.needOfCriterion(measureOf(report, criterion), plan.demand(direction, threshold));
}

function furtherSentences(report: PlanReport): string[] {
  const { answer: words } = report.words.plan;
  const { answer, plan } = report.planning;
  const cost = answer.cost === null ? null : words.money(formats.ratio(answer.cost), plan.costs?.unit ?? "");
  const days = answer.days === null ? null : formats.count(Math.ceil(answer.days));
  const effort = words.daysAndCost(days, answer.assurance, plan.recruitment.sites.length, cost);
  const saidFirst = answer.enrol === null ? [] : primaryOut(report);
  const out = [
    ...answer.criteria.out.filter((id) => !saidFirst.includes(id)).map((id) => criterionName(report, id)),
    ...answer.out.map((id) => needName(report, id)),
  ];
  const beside = answer.beside.flatMap(({ kit, enrol }) =>
    enrol === null ? [] : [words.beside(enrol, kit)],
  );
  return [
    ...jointSentences(report),
    ...(effort === null ? [] : [effort]),
    ...beside,
    ...(out.length === 0 ? [] : [words.out(out)]),
  ];
}

function jointSentences(report: PlanReport): string[] {
  const { answer: words } = report.words.plan;
  const { answer, plan, criteria } = report.planning;
  const joint = answer.jointPower;
  const primary = plan.criteria.filter(({ importance }) => importance === "primary").map(({ id }) => id);
  const planned = primary.filter((id) => !answer.criteria.out.includes(id)).length;
  if (joint === null || joint.stated === null || planned === 0) return [];
  const { lowest, highest } = joint;
  const bounds =
    lowest === null ||
    highest === null ||
    planned < 2 ||
    formats.probability(lowest) === formats.probability(highest)
      ? null
      : words.bounds(formats.probability(lowest), formats.probability(highest));
  const shared = criteria.filter(({ why }) => why === "shared_independent" || why === "shared_guaranteed");
  const powers = [...new Set(shared.map(({ power }) => powerText(power)))];
  return [
    words.joint({
      primary: primary.length,
      planned,
      stated: formats.probability(joint.stated),
      bounds,
      wanted: plan.decision.control === "all_must_pass" ? formats.probability(plan.power) : null,
    }),
    ...(powers.length === 0 ? [] : [words.shared(report.words.grammar.listed(powers))]),
  ];
}

function howToRead({ planning: { plan }, words }: PlanReport): string {
  const { answer } = words.plan;
  const own = plan.criteria.some(({ rule }) => rule !== "interval");
  return [
    answer.howToRead(plan.interval.level, words.codes.intervals[plan.interval.method]),
    ...(own ? [answer.pointRule] : []),
  ].join(" ");
}
