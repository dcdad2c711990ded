import type { Agreement } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { Notes } from "../parts/notes.tsx";
import { OpenOrFolded } from "../parts/open-or-folded.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { pairCell, pairTitle } from "../reader-names.ts";
import { Disagreements } from "./disagreements.tsx";
import { LineStrength } from "./line-strength.tsx";
import { ManyReaders } from "./many-readers.tsx";
import { PairMeasures, PairTable } from "./reader-pair.tsx";
import { ReadersGlance } from "./readers-glance.tsx";

/** How far readers of the same devices agree, pair by pair, and where they do not. */
export function Readers({ report }: SectionProps) {
  const { readers: words } = report.words;
  const pairs = report.evaluation.agreement;
  return (
    <Section report={report} id="readers">
      <p>{words.lead}</p>
      <p>{words.neverAccuracy}</p>
      {pairs.length > 1 ? <ReadersGlance report={report} pairs={pairs} /> : null}
      {pairs.map((pair, place) => (
        <AnalytePart key={place} analyte={pair.analyte}>
          <Pair report={report} pair={pair} pairs={pairs} />
        </AnalytePart>
      ))}
      <ManyReaders report={report} />
    </Section>
  );
}

/** The first pair of each analyte open with all its detail; the others are in the table above, and folded. */
function Pair({ report, pair, pairs }: { report: Report; pair: Agreement; pairs: readonly Agreement[] }) {
  const { readers: words } = report.words;
  const open = pairs.find(({ analyte }) => analyte === pair.analyte) === pair;
  const title = words.details(pairCell(report, pair), pairTitle(report, pair));
  const body = (
    <>
      <p class="lead">{plainText(report, pair)}</p>
      <div class="beside">
        <PairTable report={report} pair={pair} />
        <PairMeasures report={report} pair={pair} />
      </div>
      <Paradox report={report} pair={pair} />
      <p class="how">{furtherText(report, pair)}</p>
      <LineStrength report={report} pair={pair} />
      <Disagreements report={report} pair={pair} />
      <Notes report={report} notes={pair.notes.filter(({ code }) => code !== "read_by_one")} />
    </>
  );
  if (open) {
    return (
      <OpenOrFolded report={report} title={title} open>
        {body}
      </OpenOrFolded>
    );
  }
  return (
    <details class="aside">
      <summary>{report.words.page.other(title)}</summary>
      {body}
    </details>
  );
}

function plainText(report: Report, { first, second, counts, overall }: Agreement): string {
  const { readers: words, general } = report.words;
  return words.plain({
    first: general.reader(first),
    second: general.reader(second),
    same: overall.count,
    total: overall.total,
    firstOnly: counts.firstOnly,
    secondOnly: counts.secondOnly,
  });
}

/** Kappa beside a high agreement, explained where the evaluation finds that it misleads. */
function Paradox({ report, pair }: { report: Report; pair: Agreement }) {
  const { readers: words } = report.words;
  const { kappa, pabak, overall, paradox } = pair;
  if (paradox === "none" || kappa.value === null || pabak.value === null || overall.value === null)
    return null;
  return (
    <p>
      {words.paradox[paradox](
        formats.percentSigned(overall.value, formats.percentDecimals(overall)),
        formats.index(kappa.value),
        formats.index(pabak.value),
      )}
    </p>
  );
}

/** The remaining figures, and the devices that are in none of them. */
function furtherText(report: Report, pair: Agreement): string {
  const { readers: words, general, page } = report.words;
  const { invalid, unpaired, first, second } = pair;
  const text = (value: number | null) => (value === null ? page.notEstimable : formats.index(value));
  const names = [general.reader(first), general.reader(second)] as const;
  return [
    words.coefficients(text(pair.krippendorffAlpha), text(pair.prevalenceIndex), text(pair.biasIndex)),
    words.invalid(invalid.both, invalid.firstOnly, invalid.secondOnly, ...names),
    words.unpaired(unpaired),
  ]
    .filter((part) => part !== null)
    .join(" ");
}
