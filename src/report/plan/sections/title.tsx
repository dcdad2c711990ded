import type { PlanSectionProps } from "../context.ts";
import { plannedTitle } from "../names.ts";

/** What is planned, for whom, and how it will be judged. */
export function Title({ report }: PlanSectionProps) {
  const { plan: words, grammar, codes } = report.words;
  const { plan } = report.planning;
  const { method, level } = plan.interval;
  const analytes = grammar.listed(plan.analytes.map(({ id }) => plannedTitle(report, id)));
  const about = [
    ...words.about(analytes, plan.criteria.length, plan.recruitment.sites.length),
    words.interval(level, codes.intervalsShort[method]),
  ];
  return (
    <header class="title">
      <p class="over">
        {words.kind} <span aria-hidden="true">·</span> {plan.id}
      </p>
      <h1>{plan.title}</h1>
      <p class="sub">{about.join(" · ")}</p>
    </header>
  );
}
