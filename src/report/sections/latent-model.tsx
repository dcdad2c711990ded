import type { LatentClass } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { OTHER, trustText } from "../latent-trust.ts";
import { analyteTitle, worded } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { Notes } from "../parts/notes.tsx";
import { PercentInterval, pText, spanText } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";
import {
  couplingTitle,
  medianOf,
  modelFigure,
  priorOf,
  smallWithRange,
  type Unknown,
  unknownsOf,
} from "../reference-names.ts";
import { LatentChains } from "./latent-chains.tsx";
import { LatentChecks } from "./latent-checks.tsx";
import { LatentCouplings } from "./latent-couplings.tsx";
import { LatentTable } from "./latent-table.tsx";

interface Props {
  readonly report: Report;
  readonly model: LatentClass;
}

/** A model in which no test is beyond doubt: what it says of each test, then how far that may be trusted. */
export function LatentModel({ report, model }: Props) {
  const { latent: words, page } = report.words;
  const { source, enteredOn, bayesian, likelihood } = model;
  const believed =
    source === null ? null : words.source(source, enteredOn === null ? null : page.date(enteredOn));
  return (
    <div class="part">
      <h3>{words.heading(model.title)}</h3>
      <p>{leadText(report, model)}</p>
      <FoundText report={report} model={model} />
      {likelihood === null && bayesian === null ? null : <LatentTable report={report} model={model} />}
      <p>{trustText(report, model)}</p>
      <LatentCouplings report={report} model={model} />
      <Beliefs report={report} model={model} />
      <p class="how">{[dependenceText(report, model), believed].filter(Boolean).join(" ")}</p>
      <LatentChecks report={report} model={model} />
      <LatentChains report={report} model={model} />
      <Notes report={report} notes={model.notes.filter((note) => !said(note))} />
    </div>
  );
}

/** Whether a sentence of this part says what a note does: of the beliefs stated, not of others. */
const said = ({ code, path }: LatentClass["notes"][number]) =>
  code === "prior_sensitive" || (SAID.has(code) && !path.startsWith(OTHER));

/** Said in the sentences of this part. */
const SAID = new Set([
  "rests_on_priors",
  "not_converged",
  "prior_conflict",
  "poor_fit",
  "not_identifiable",
  "not_identified_here",
  "independence",
]);

function leadText(report: Report, model: LatentClass): string {
  const { latent: words, grammar, reasons } = report.words;
  const { asked, counted, setAside } = model.people;
  const aside = setAside
    .filter(({ people }) => people > 0)
    .map(({ reason, people }) => words.setAside(worded(reasons, reason), people));
  const lead = words.lead(
    model.tests.length,
    model.populations === null ? null : grammar.inline(model.populations.title),
  );
  return `${lead} ${words.people(asked, counted, aside.length === 0 ? null : grammar.listed(aside))}`;
}

/** What the model says of each test, by the beliefs where there are any. */
function FoundText({ report, model }: Props) {
  const { latent: words } = report.words;
  const told = model.tests.flatMap(({ title }, place) => {
    const { sensitivity, specificity } = estimatesOf(model, place);
    const [finds, clears] = [shareText(report, sensitivity), shareText(report, specificity)];
    return finds === null || clears === null
      ? []
      : [words.found(title, analyteTitle(report, model.analyte), finds, clears)];
  });
  if (told.length === 0) return null;
  return (
    <>
      <p class="lead">{model.bayesian === null ? words.by.likelihood : words.by.bayesian}</p>
      <ul class="found">
        {told.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </>
  );
}

function estimatesOf(model: LatentClass, place: number) {
  const bayesian = model.bayesian?.tests[place];
  if (bayesian !== undefined) {
    return { sensitivity: medianOf(bayesian.sensitivity), specificity: medianOf(bayesian.specificity) };
  }
  const likelihood = model.likelihood?.tests[place];
  return {
    sensitivity: likelihood?.sensitivity.estimate ?? null,
    specificity: likelihood?.specificity.estimate ?? null,
  };
}

function shareText(report: Report, of: formats.Limits | null): string | null {
  if (of === null || of.value === null) return null;
  const span = spanText(report, of);
  const value = formats.percentSigned(of.value, formats.percentDecimals(of));
  return span === null ? value : `${value} (${span})`;
}

function dependenceText(report: Report, model: LatentClass): string {
  const { latent: words } = report.words;
  return words.dependence(
    model.dependence,
    model.pairs.map((_, place) => couplingTitle(model, place)),
  );
}

/** What was believed of each quantity and what the data made of it. */
function Beliefs({ report, model }: Props) {
  const { latent: words } = report.words;
  const { densityColumns: columns } = words;
  const figure = modelFigure("beliefs", model);
  if (model.bayesian === null || !report.figures.has(figure)) return null;
  const caption = words.densities(model.title);
  const number = (of: formats.Limits, kind: Unknown["kind"]) =>
    kind === "share" ? <PercentInterval report={report} of={of} /> : (smallWithRange(of) ?? "");
  return (
    <>
      <Chart report={report} name={figure} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={[
            {
              head: columns.quantity,
              heading: true,
              cell: ({ title }) => report.words.grammar.sentence(title),
            },
            {
              head: columns.before,
              kind: "number",
              cell: ({ posterior, kind }) => number(priorOf(posterior), kind),
            },
            {
              head: columns.after,
              kind: "number",
              cell: ({ posterior, kind }) => number(medianOf(posterior), kind),
            },
            { head: columns.p, kind: "number", cell: ({ posterior }) => pText(posterior.outsidePrior) },
          ]}
          groups={[{ rows: unknownsOf(report, model) }]}
        />
      </Chart>
      <p class="how">{words.densityHow}</p>
    </>
  );
}
