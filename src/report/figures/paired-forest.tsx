import type { Estimate, ProportionEstimate } from "../../core/estimate.ts";
import { countOf, percent, percentDecimals, percentRange } from "../formats.ts";
import { Lines } from "./forest.tsx";
import { PlaceStrip } from "./place-strip.tsx";
import { Strip, StripScale } from "./strip.tsx";
import { type StripDomain, stripDomain } from "./strip-scale.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

/** One study or site, both measures side by side; nobody of a kind: no counts, no strip. */
export interface PairedRow {
  readonly label: string;
  readonly sensitivity: ProportionEstimate;
  readonly specificity: ProportionEstimate;
}

/** A summary of studies: its limits, and where a place not studied may lie. */
export interface PairedSummary {
  readonly label: string;
  readonly sensitivity: { readonly summary: Estimate; readonly prediction: Estimate };
  readonly specificity: { readonly summary: Estimate; readonly prediction: Estimate };
}

export interface PairedGroup {
  /** `null`: the studies are of one kind. */
  readonly title: string | null;
  readonly rows: readonly PairedRow[];
  /** The group's own summary; the rules through its rows are at it. */
  readonly summary: PairedSummary | null;
}

export interface PairedForestProps {
  readonly caption: string;
  readonly groups: readonly PairedGroup[];
  /** Over all groups. */
  readonly summary: PairedSummary | null;
  /** Names of the two measures, as heads. */
  readonly titles: { readonly sensitivity: string; readonly specificity: string };
  /** Head of the first column. */
  readonly study: string;
  /** What a summary's strip shows, in words. */
  readonly inWords: (summary: Estimate, prediction: Estimate) => string;
  readonly howToRead: string;
  readonly criterion?: {
    readonly sensitivity?: number | undefined;
    readonly specificity?: number | undefined;
  };
  readonly width?: number | undefined;
  readonly words?: FigureWords | undefined;
}

const MEASURES = ["sensitivity", "specificity"] as const;
type Measure = (typeof MEASURES)[number];
type Domains = Readonly<Record<Measure, StripDomain>>;

interface Shared {
  readonly domains: Domains;
  readonly width: number;
  readonly criterion: NonNullable<PairedForestProps["criterion"]>;
  readonly inWords: PairedForestProps["inWords"];
  readonly words: FigureWords;
}

/** Studies as a table with two columns of strips, each on a scale of its own; summaries with their prediction below. */
export function PairedForest(props: PairedForestProps) {
  const { groups, summary, titles, criterion = {}, width = 122, words = FIGURE_WORDS } = props;
  const domains = {
    sensitivity: domainOf(props, "sensitivity"),
    specificity: domainOf(props, "specificity"),
  };
  const shared: Shared = { domains, width, criterion, inWords: props.inWords, words };
  return (
    <table class="fig-forest fig-paired">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{props.study}</th>
          {MEASURES.map((measure) => (
            <Head key={measure} title={titles[measure]} measure={measure} {...shared} />
          ))}
        </tr>
      </thead>
      {groups.map((group, place) => (
        <Group key={group.title ?? place} group={group} overall={summary} {...shared} />
      ))}
      {summary === null ? null : (
        <tbody class="fig-summaries">
          <SummaryRow summary={summary} {...shared} />
        </tbody>
      )}
      <tfoot>
        <tr>
          <td colSpan={1 + 3 * MEASURES.length}>{props.howToRead}</td>
        </tr>
      </tfoot>
    </table>
  );
}

function domainOf({ groups, summary, criterion }: PairedForestProps, measure: Measure): StripDomain {
  const rows = groups.flatMap((group) => group.rows.map((row) => row[measure]));
  const middles = [summary, ...groups.map((group) => group.summary)].flatMap((one) =>
    one === null ? [] : [one[measure].summary, one[measure].prediction],
  );
  const asked = criterion?.[measure];
  return stripDomain([...rows, ...middles], asked === undefined ? [] : [asked]);
}

function Head({ title, measure, domains, width, words }: Shared & { title: string; measure: Measure }) {
  return (
    <>
      <th scope="col" class="fig-number fig-begin">
        {words.forest.counts}
      </th>
      <th scope="col" class="fig-strips">
        <span>{title}</span>
        <StripScale domain={domains[measure]} width={width} words={words.strip} />
      </th>
      <th scope="col" class="fig-number">
        {words.forest.percent}
      </th>
    </>
  );
}

function Group({
  group,
  overall,
  ...shared
}: Shared & { group: PairedGroup; overall: PairedSummary | null }) {
  const middle = group.summary ?? overall;
  return (
    <tbody>
      {group.title === null ? null : (
        <tr class="fig-stratum">
          <th scope="rowgroup" colSpan={1 + 3 * MEASURES.length}>
            {group.title}
          </th>
        </tr>
      )}
      {group.rows.map((row) => (
        <tr key={row.label} class={group.title === null ? "fig-single" : "fig-group"}>
          <th scope="row">{row.label}</th>
          {MEASURES.map((measure) => (
            <Cells key={measure} measure={measure} of={row[measure]} middle={middle} {...shared} />
          ))}
        </tr>
      ))}
      {group.summary === null ? null : <SummaryRow summary={group.summary} {...shared} />}
    </tbody>
  );
}

interface CellsProps extends Shared {
  readonly measure: Measure;
  readonly of: ProportionEstimate;
  readonly middle: PairedSummary | null;
}

function Cells({ measure, of, middle, domains, width, criterion, words }: CellsProps) {
  const nobody = of.total === 0;
  return (
    <>
      <td class="fig-number fig-begin">{nobody ? words.forest.nothing : countOf(of.count, of.total)}</td>
      <td class="fig-strips">
        <Lines
          overall={middle?.[measure].summary.value ?? null}
          criterion={criterion[measure]}
          domain={domains[measure]}
          width={width}
        />
        {nobody ? null : <Strip estimate={of} domain={domains[measure]} width={width} words={words.strip} />}
      </td>
      <Figures of={of} />
    </>
  );
}

/** A percentage and its limits in one cell. */
function Figures({ of, threshold }: { of: Estimate; threshold?: number | undefined }) {
  if (of.value === null) return <td class="fig-number" />;
  const decimals = percentDecimals(of, threshold);
  return (
    <td class="fig-number">
      <span class="fig-value">{percent(of.value, decimals)}</span>
      <span class="limits">{percentRange(of, decimals) ?? ""}</span>
    </td>
  );
}

function SummaryRow({ summary, domains, width, criterion, inWords }: Shared & { summary: PairedSummary }) {
  return (
    <tr class="fig-summary">
      <th scope="row">{summary.label}</th>
      {MEASURES.map((measure) => {
        const { summary: middle, prediction } = summary[measure];
        return (
          <>
            <td class="fig-begin" />
            <td class="fig-strips">
              <PlaceStrip
                summary={middle}
                prediction={prediction}
                criterion={criterion[measure]}
                domain={domains[measure]}
                width={width}
                label={inWords(middle, prediction)}
              />
            </td>
            <Figures of={middle} threshold={criterion[measure]} />
          </>
        );
      })}
    </tr>
  );
}
