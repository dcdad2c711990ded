import { PlanStrip } from "../../figures/plan-strip.tsx";
import { StripScale } from "../../figures/strip.tsx";
import { type StripDomain, stripDomain } from "../../figures/strip-scale.ts";
import * as formats from "../../formats.ts";
import type { PlanRow, PlanRows } from "../answer-rows.ts";
import type { PlanReport } from "../context.ts";
import { powerText } from "../names.ts";

const STRIP = 190;
/** Cells of a line after the analyte. */
const CELLS = 7;

type Domains = Readonly<Record<PlanRow["scale"], StripDomain>>;

/** Each criterion with what is expected, its strip and what it asks for, and a plain sentence beneath. */
export function AnswerTable({ report, groups }: { report: PlanReport; groups: readonly PlanRows[] }) {
  const rows = groups.flatMap((group) => group.rows);
  const { plan, page } = report.words;
  const domains = { high: domainOf(rows, "high"), low: domainOf(rows, "low") };
  const headScale = rows.some(({ scale }) => scale === "high") ? "high" : "low";
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(plan.answer.caption)}>
      <table class="answers planned">
        <caption class="unseen">{plan.answer.caption}</caption>
        <Head report={report} domain={domains[headScale]} />
        {groups.map((group) => (
          <tbody key={group.analyte} data-analyte={group.analyte}>
            {group.rows.map((row, place) => (
              <Lines
                key={row.line.criterion}
                report={report}
                row={row}
                heading={place === 0 ? group : null}
                domains={domains}
                ownScale={row.scale !== headScale}
              />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function domainOf(rows: readonly PlanRow[], scale: PlanRow["scale"]): StripDomain {
  const mine = rows.filter((row) => row.scale === scale);
  const estimates = mine.map(({ expected, passing }) => ({
    value: expected,
    lower: passing?.from ?? expected,
    upper: passing?.to ?? expected,
  }));
  const thresholds = mine.map(({ threshold }) => threshold);
  return stripDomain(estimates, thresholds, scale === "high" ? "be_high" : "be_low");
}

function Head({ report, domain }: { report: PlanReport; domain: StripDomain }) {
  const { columns } = report.words.plan.answer;
  return (
    <thead>
      <tr>
        <th scope="col">{columns.analyte}</th>
        <th scope="col">{columns.measure}</th>
        <th scope="col" class="number">
          {columns.expected}
        </th>
        <th scope="col" class="number">
          {columns.criterion}
        </th>
        <th scope="col" class="figure">
          <StripScale domain={domain} width={STRIP} />
        </th>
        <th scope="col" class="number">
          {columns.needed}
        </th>
        <th scope="col" class="number">
          {columns.allowed}
        </th>
        <th scope="col" class="number">
          {columns.power}
        </th>
      </tr>
    </thead>
  );
}

interface LineProps {
  readonly report: PlanReport;
  readonly row: PlanRow;
  /** The analyte, on its first line. */
  readonly heading: PlanRows | null;
  readonly domains: Domains;
  readonly ownScale: boolean;
}

function Lines({ report, row, heading, domains, ownScale }: LineProps) {
  const { columns } = report.words.plan.answer;
  const domain = domains[row.scale];
  const lines = heading?.rows.reduce((all, one) => all + (one.sentences.length > 0 ? 2 : 1), 0);
  return (
    <>
      <tr class={heading === null ? "measured" : "measured first"}>
        {heading === null ? null : (
          <th scope="rowgroup" rowSpan={lines} class="analyte">
            {heading.title}
          </th>
        )}
        <th scope="row" class="measure">
          {row.measure}
          {row.place === null ? null : <span class="place">{row.place}</span>}
        </th>
        <td class="number estimate" data-label={columns.expected}>
          {formats.statedPercent(row.expected)}
        </td>
        <td class="number criterion" data-label={columns.criterion}>
          {report.words.answer.criterion(row.direction, row.threshold)}
        </td>
        <td class="figure">
          <div class={ownScale ? undefined : "card-scale"}>
            <StripScale domain={domain} width={STRIP} />
          </div>
          <PlanStrip
            expected={row.expected}
            criterion={row.threshold}
            direction={row.direction}
            passing={row.passing}
            domain={domain}
            width={STRIP}
          />
        </td>
        <Needs report={report} row={row} />
      </tr>
      {row.sentences.length === 0 ? null : (
        <tr class="said">
          <td colSpan={CELLS}>{row.sentences.join(" ")}</td>
        </tr>
      )}
    </>
  );
}

function Needs({ report, row: { line, group } }: Pick<LineProps, "report" | "row">) {
  const { answer: words, noPlan } = report.words.plan;
  const { total, allowed } = line.size.values.stays;
  if (line.needed === null || total === null || allowed === null) {
    return (
      <td class="number judgement" colSpan={3}>
        <span class="absent">{noPlan}</span>
      </td>
    );
  }
  const power = line.atSize?.values.met ?? line.size.values.stays.power;
  return (
    <>
      <td class="number judgement">
        <b>{formats.count(line.needed)}</b>
        <span class="place">{group}</span>
      </td>
      <td class="number counts" data-label={words.columns.allowed}>
        {line.needed === total ? formats.count(allowed) : words.ofThose(allowed, total)}
      </td>
      <td class="number probability" data-label={words.columns.power}>
        {power === null ? "" : formats.chance(power)}
        <span class="place">{words.columns.powerWanted(powerText(line.power))}</span>
      </td>
    </>
  );
}
