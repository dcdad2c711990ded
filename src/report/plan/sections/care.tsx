import * as formats from "../../formats.ts";
import { placeOfPlan } from "../contents.ts";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { demandText, measureOf, plannedTitle, statedSigned } from "../names.ts";

interface Item {
  readonly label: string;
  readonly text: string;
}

/** What every number of the plan hangs on, in plain words, gravest first. */
export function Care({ report }: PlanSectionProps) {
  const { care } = report.words.plan;
  const items = [expectedItem(report), worseItem(report), prevalenceItem(report), lossesItem(report)];
  const further = [alikeItem(report), togetherItem(report), judgedItem(report)];
  const place = placeOfPlan(report, "whatif");
  return (
    <section id="care" class="care" aria-labelledby="care-heading">
      <h2 id="care-heading">{care.heading}</h2>
      <ul>
        {[...items, ...further]
          .filter((item) => item !== null)
          .map(({ label, text }, at) => (
            <li key={label}>
              <b>{label}.</b> {text}{" "}
              {at === 0 && place !== null ? (
                <a class="further" href={`#${place.id}`}>
                  {report.words.page.section(String(place.number))}
                </a>
              ) : null}
            </li>
          ))}
      </ul>
    </section>
  );
}

function expectedItem(report: PlanReport): Item | null {
  const { care } = report.words.plan;
  const { criteria } = report.planning;
  if (criteria.length === 0) return null;
  const list = criteria.map((line) => `${measureOf(report, line)} ${statedSigned(line.size.input.expected)}`);
  return { label: care.expected.label, text: care.expected.text(report.words.grammar.listed(list)) };
}

function worseItem(report: PlanReport): Item | null {
  const { care } = report.words.plan;
  const errors = report.planning.criteria.flatMap((line) => {
    const error = line.atSize?.values.atThreshold ?? null;
    const { direction, threshold } = line.size.input;
    return error === null
      ? []
      : [{ error, asked: `${measureOf(report, line)} ${demandText(report, direction, threshold)}` }];
  });
  if (errors.length === 0) return null;
  const most = formats.probability(Math.max(...errors.map(({ error }) => error)));
  const measures = report.words.grammar.listed(
    errors.map(({ asked }) => asked),
    "or",
  );
  return { label: care.worse.label, text: care.worse.text(most, measures) };
}

function prevalenceItem(report: PlanReport): Item | null {
  const { care } = report.words.plan;
  const list = report.planning.enrolment.flatMap(({ analyte, enrolment }) => {
    if (enrolment === null) return [];
    const { input, values } = enrolment;
    const { mean, lower, upper } = values.prevalence;
    if (mean === null) return [];
    const title = plannedTitle(report, analyte);
    const range = formats.percentRange({ value: mean, lower, upper }, 1);
    const stated = input.prevalence;
    if (stated.kind === "fixed") return [care.prevalence.fixed(title, statedSigned(stated.value))];
    if (stated.kind === "range") {
      return [care.prevalence.range(title, statedSigned(stated.low), statedSigned(stated.high))];
    }
    const shown = formats.percentSigned(mean);
    if (stated.kind === "beta") return [care.prevalence.uncertain(title, shown, range)];
    return [care.prevalence.counts(title, stated.positive, stated.total, shown, range)];
  });
  if (list.length === 0) return null;
  const text = care.prevalence.text(report.words.grammar.listed(list));
  return { label: care.prevalence.label, text: report.words.grammar.sentence(text) };
}

function lossesItem(report: PlanReport): Item {
  const { losses } = report.words.plan.care;
  const { invalid, lost, unverified } = report.planning.plan.recruitment;
  const none = invalid === 0 && lost === 0 && unverified === 0;
  const text = none
    ? losses.none
    : losses.text(statedSigned(invalid), statedSigned(lost), statedSigned(unverified));
  return { label: losses.label, text };
}

function alikeItem(report: PlanReport): Item {
  const { alike: words } = report.words.plan.care;
  const { alike } = report.planning.plan;
  if (alike === undefined) return { label: words.label, text: words.none };
  const by =
    alike.clusters === undefined
      ? words.size(formats.stated(alike.size ?? 0))
      : words.clusters(alike.clusters);
  return { label: words.label, text: words.text(formats.stated(alike.icc), by) };
}

function togetherItem(report: PlanReport): Item | null {
  const { together: words } = report.words.plan.care;
  const { together } = report.planning.plan;
  if (together === undefined || report.planning.plan.analytes.length < 2) return null;
  return { label: words.label, text: words.text(formats.stated(together.correlation)) };
}

function judgedItem(report: PlanReport): Item {
  const { judged } = report.words.plan.care;
  const { interval, decision } = report.planning.plan;
  const { codes } = report.words;
  const named = report.words.plan.care.intervalOf(interval.level, codes.intervals[interval.method]);
  return { label: judged.label, text: judged.text(named, judged.control[decision.control]) };
}
