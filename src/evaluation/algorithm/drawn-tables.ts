import type { Cell, Table } from "../csv.ts";
import type { Algorithms } from "./document.ts";

/** Tables of what was drawn, moved and searched. */
export function drawnTables(algorithms: Algorithms): Table[] {
  return [
    uncertaintyTable(algorithms),
    tornadoTable(algorithms),
    searchTable(algorithms),
    switchesTable(algorithms),
  ];
}

const MEASURES = ["ppv", "npv", "missed", "falsePositives", "inconclusive", "cost"] as const;
const NAMES: Readonly<Record<(typeof MEASURES)[number], string>> = {
  ppv: "ppv",
  npv: "npv",
  missed: "missed",
  falsePositives: "false_positives",
  inconclusive: "inconclusive",
  cost: "cost",
};

function uncertaintyTable({ uncertainty }: Algorithms): Table {
  const rows = uncertainty.flatMap(({ analyte, drawn }) =>
    drawn.values.algorithms.flatMap(({ id, at }) =>
      at.flatMap((place) =>
        MEASURES.map((measure): Cell[] => {
          const { mean, median, lower, upper } = place[measure];
          return [analyte, place.label, id, NAMES[measure], mean, median, lower, upper];
        }),
      ),
    ),
  );
  const columns = ["analyte", "channel", "algorithm", "measure", "mean", "median", "lower", "upper"];
  return { name: "uncertainty", columns, rows };
}

function tornadoTable({ tornado }: Algorithms): Table {
  const rows = tornado.flatMap(({ channel, algorithm, moved }) =>
    moved.values.bars.map((bar): Cell[] => [
      channel,
      algorithm,
      moved.input.outcome,
      bar.input,
      bar.low,
      bar.high,
      bar.atLow,
      bar.atHigh,
    ]),
  );
  const columns = ["channel", "algorithm", "outcome", "input", "low", "high", "at_low", "at_high"];
  return { name: "tornado", columns, rows };
}

function searchTable({ frontier }: Algorithms): Table {
  const rows = frontier.flatMap(({ analyte, search }) =>
    (search?.values.at ?? []).flatMap(({ prevalence, best, notBeaten }) =>
      notBeaten.map((one): Cell[] => [
        analyte,
        prevalence,
        one.algorithm,
        one.algorithm === best,
        one.keeps,
        one.ppv,
        one.npv,
        one.missed,
        one.falsePositives,
        one.inconclusive,
        one.cost,
      ]),
    ),
  );
  const columns = ["analyte", "prevalence", "algorithm", "best", "reaches_targets", "ppv", "npv"];
  return { name: "search", columns: [...columns, "missed", "false_positives", "inconclusive", "cost"], rows };
}

function switchesTable({ frontier }: Algorithms): Table {
  const rows = frontier.flatMap(({ analyte, search }) =>
    (search?.values.switches ?? []).map(({ prevalence, from, to }): Cell[] => [
      analyte,
      prevalence,
      from,
      to,
    ]),
  );
  return { name: "switches", columns: ["analyte", "prevalence", "from", "to"], rows };
}
