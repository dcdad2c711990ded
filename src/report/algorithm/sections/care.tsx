import type { DependentPair } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { placeOfAlgorithm } from "../contents.ts";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { channelTitle, kitName, leadingLine, ofHundred, pairTitle } from "../names.ts";

interface Item {
  readonly label: string;
  readonly text: string;
  readonly section?: "dependence" | "predictive" | "uncertainty" | "kits";
}

/** What every number hangs on, in plain words, gravest first. */
export function Care({ report }: AlgorithmSectionProps) {
  const { care } = report.words.algorithm;
  const items = [
    dependenceItem(report),
    repeatItem(report),
    prevalenceItem(report),
    accuracyItem(report),
    returnItem(report),
    wasteItem(report),
    { label: care.national.label, text: care.national.text },
  ];
  return (
    <section id="care" class="care" aria-labelledby="care-heading">
      <h2 id="care-heading">{care.heading}</h2>
      <ul>
        {items
          .filter((item) => item !== null)
          .map((item) => (
            <li key={item.label}>
              <b>{item.label}.</b> {item.text} <Further report={report} item={item} />
            </li>
          ))}
      </ul>
    </section>
  );
}

function Further({ report, item }: { report: AlgorithmReport; item: Item }) {
  const place = item.section === undefined ? null : placeOfAlgorithm(report, item.section);
  if (place === null) return null;
  return (
    <a class="further" href={`#${place.id}`}>
      {report.words.page.section(String(place.number))}
    </a>
  );
}

function dependenceItem(report: AlgorithmReport): Item | null {
  const { dependence: words } = report.words.algorithm.care;
  const { kind, pairs } = report.algorithms.dependence;
  if (kind === "none") return null;
  const section = "dependence";
  if (kind === "independent") return { label: words.label, text: words.independent, section };
  if (kind === "shared") return { label: words.label, text: `${words.shared} ${worst(report)}`, section };
  const two = pairs.filter(({ first, second }) => first !== second);
  const line = leadingLine(report);
  const leads = ({ analyte, first, second }: DependentPair) =>
    analyte === line?.analyte && [first, second].every((id) => line.kits.some(({ kit }) => kit === id));
  const ordered = [...(two.length === 0 ? pairs : two)].sort(
    (one, other) => Number(leads(other)) - Number(leads(one)),
  );
  const named = ordered.map((pair) =>
    words.pair(
      pairTitle(report, pair.first, pair.second),
      formats.stated(Number(pair.nondiseased.toFixed(3))),
      pair.source === "estimated",
    ),
  );
  const list = report.words.grammar.listed([...new Set(named)]);
  return { label: words.label, text: `${words.pairs(list)} ${worst(report)}`.trim(), section };
}

/** How far the leading line would fall if the kits' errors went together as far as they can. */
function worst(report: AlgorithmReport): string {
  const line = leadingLine(report);
  const sweep = report.algorithms.dependence.sweeps.find(
    ({ channel, algorithm }) => channel === line?.channel && algorithm === line.algorithm,
  );
  const last = sweep?.nondiseased.at(-1);
  if (sweep === undefined || last === undefined || last.ppv === null) return "";
  return report.words.algorithm.care.dependence.worst(
    ofHundred(last.ppv),
    formats.stated(Number(last.value.toFixed(3))),
    report.words.grammar.inline(channelTitle(report, sweep.channel)),
  );
}

function repeatItem(report: AlgorithmReport): Item | null {
  const { repeat: words } = report.words.algorithm.care;
  const { pairs, kind } = report.algorithms.dependence;
  if (kind === "none") return null;
  const repeats = pairs.filter(({ first, second }) => first === second);
  if (repeats.length === 0) return { label: words.label, text: words.none };
  const stated = repeats.map(({ first, nondiseased }) => ({
    kit: kitName(report, first),
    value: formats.stated(Number(nondiseased.toFixed(3))),
  }));
  const list = report.words.grammar.listed(alike(report, stated, words.one));
  return { label: words.label, text: words.some(list) };
}

/** Kits of which the same is said are named together. */
function alike(
  report: AlgorithmReport,
  stated: readonly { readonly kit: string; readonly value: string }[],
  say: (kits: string, value: string) => string,
): string[] {
  return [...new Set(stated.map(({ value }) => value))].map((value) => {
    const kits = stated.filter((one) => one.value === value).map(({ kit }) => kit);
    return say(report.words.grammar.listed([...new Set(kits)]), value);
  });
}

function prevalenceItem(report: AlgorithmReport): Item | null {
  const { prevalence: words } = report.words.algorithm.care;
  const { lines, target } = report.algorithms.answer;
  const line = leadingLine(report);
  if (line === undefined) return null;
  const own = lines.filter(({ algorithm }) => algorithm === line.algorithm);
  const list = own.map(({ channel, prevalence, ppv }) =>
    words.channel(
      report.words.grammar.inline(channelTitle(report, channel)),
      formats.significantPercent(prevalence),
      ppv.value === null ? null : ofHundred(ppv.value),
    ),
  );
  const reached = report.algorithms.predictive.find(
    ({ algorithm }) => algorithm === line.algorithm,
  )?.reachesTarget;
  const from =
    target === null || reached === undefined
      ? ""
      : words.from(
          formats.statedPercent(target),
          reached.stated === null ? null : formats.significantPercent(reached.stated),
          reached.independent === null ? null : formats.significantPercent(reached.independent),
        );
  const text = `${words.text(report.words.grammar.listed(list))} ${from}`.trim();
  return { label: words.label, text, section: "predictive" };
}

function accuracyItem(report: AlgorithmReport): Item {
  const { accuracy: words } = report.words.algorithm.care;
  return { label: words.label, text: words.text, section: "uncertainty" };
}

function returnItem(report: AlgorithmReport): Item | null {
  const { returns: words } = report.words.algorithm.care;
  const retested = report.algorithms.algorithms.filter(({ retested: days }) => days !== null);
  const asked = report.algorithms.file.channels.flatMap(({ title, return: share }) =>
    share === undefined
      ? []
      : [words.channel(report.words.grammar.inline(title), formats.statedPercent(share))],
  );
  if (retested.length === 0) return { label: words.label, text: words.nobody };
  const shares = new Set(report.algorithms.file.channels.map((channel) => channel.return));
  const [share] = shares;
  const list =
    shares.size === 1 && share !== undefined
      ? words.everywhere(formats.statedPercent(share))
      : report.words.grammar.listed(asked);
  const days = [...new Set(retested.map(({ retested: one }) => formats.count(one ?? 0)))];
  return { label: words.label, text: words.text(report.words.grammar.listed(days, "or"), list) };
}

function wasteItem(report: AlgorithmReport): Item | null {
  const { waste: words } = report.words.algorithm.care;
  const { kits } = report.algorithms.file;
  const used = kits.filter(({ id }) => report.algorithms.algorithms.some((one) => one.kits.includes(id)));
  const stated = used
    .filter(({ waste }) => waste > 0)
    .map(({ id, waste }) => ({ kit: kitName(report, id), value: formats.statedPercent(waste) }));
  const list = alike(report, stated, words.kit);
  if (list.length === 0) return { label: words.label, text: words.none, section: "kits" };
  return { label: words.label, text: words.text(report.words.grammar.listed(list)), section: "kits" };
}
