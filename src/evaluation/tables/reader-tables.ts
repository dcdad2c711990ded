import { NOT_ESTIMABLE } from "../../core/estimate.ts";
import type { Cell, Table } from "../csv.ts";
import type { Agreement, Evaluation, ManyReaders } from "../document.ts";
import { ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

type Estimated = Parameters<typeof estimateColumns>[0];

const PAIR_COLUMNS = ["analyte", "kit", "specimen", "first_reader", "second_reader"];

/** Every coefficient of every two readers, and of all eye readers together; one row each. */
export function agreementTable(evaluation: Evaluation): Table {
  const rows = [
    ...evaluation.agreement.flatMap((agreement) =>
      coefficientsOf(agreement).map(([measure, estimate]): Cell[] => [
        ...pairColumns(agreement),
        measure,
        ...estimateColumns(estimate),
      ]),
    ),
    ...evaluation.manyReaders.flatMap((many) =>
      togetherOf(many).map(([measure, estimate]): Cell[] => [
        many.analyte,
        many.kit,
        many.specimen,
        many.readers.join(" "),
        null,
        measure,
        ...estimateColumns(estimate),
      ]),
    ),
  ];
  return { name: "agreement", columns: [...PAIR_COLUMNS, "measure", ...ESTIMATE_COLUMNS], rows };
}

function pairColumns({ analyte, kit, specimen, first, second }: Agreement): Cell[] {
  return [analyte, kit, specimen, first, second];
}

function plain(value: number | null): Estimated {
  return { value, lower: null, upper: null };
}

function coefficientsOf(agreement: Agreement): [string, Estimated][] {
  const { counts, invalid, unpaired } = agreement;
  return [
    ["devices_both_reactive", plain(counts.bothReactive)],
    ["devices_first_only_reactive", plain(counts.firstOnly)],
    ["devices_second_only_reactive", plain(counts.secondOnly)],
    ["devices_both_nonreactive", plain(counts.bothNonreactive)],
    ["devices_both_invalid", plain(invalid.both)],
    ["devices_first_only_invalid", plain(invalid.firstOnly)],
    ["devices_second_only_invalid", plain(invalid.secondOnly)],
    ["devices_read_by_one", plain(unpaired)],
    ["overall_agreement", agreement.overall],
    ["positive_percent_agreement", agreement.positivePercentAgreement],
    ["negative_percent_agreement", agreement.negativePercentAgreement],
    ["positive_specific_agreement", agreement.positiveAgreement],
    ["negative_specific_agreement", agreement.negativeAgreement],
    ["kappa", agreement.kappa],
    ["weighted_kappa_of_line_strength", agreement.lineStrength?.weightedKappa ?? NOT_ESTIMABLE],
    ["pabak", agreement.pabak],
    ["ac1", agreement.ac1],
    ["krippendorff_alpha", plain(agreement.krippendorffAlpha)],
    ["prevalence_index", plain(agreement.prevalenceIndex)],
    ["bias_index", plain(agreement.biasIndex)],
  ];
}

function togetherOf({ devices, fleissKappa, ac1, alpha }: ManyReaders): [string, Estimated][] {
  return [
    ["devices", plain(devices)],
    ["fleiss_kappa", fleissKappa],
    ["ac1", ac1],
    ["krippendorff_alpha", alpha],
  ];
}

/** Where two readers disagree: the share of discordant devices in each group. */
export function disagreementsTable(evaluation: Evaluation): Table {
  const rows = evaluation.agreement.flatMap((agreement) =>
    agreement.disagreements.map(({ by, group, discordant }): Cell[] => [
      ...pairColumns(agreement),
      by,
      group,
      ...estimateColumns(discordant),
    ]),
  );
  return { name: "disagreements", columns: [...PAIR_COLUMNS, "by", "group", ...ESTIMATE_COLUMNS], rows };
}

/** Devices read twice by the same reader: each change of result, and what it does to the two measures. */
export function rereadingsTable(evaluation: Evaluation): Table {
  const rows = evaluation.rereadings.flatMap((reread) => {
    const start = [reread.analyte, reread.kit, reread.specimen, reread.reader];
    return [
      ...reread.transitions.map(({ first, second, devices }): Cell[] => [
        ...start,
        `${first} to ${second}`,
        devices,
        reread.devices,
        null,
        null,
        null,
        null,
      ]),
      [...start, "flipped", ...estimateColumns(reread.flipped), reread.mcnemarPValue],
      [...start, "sensitivity_difference", ...estimateColumns(reread.sensitivityDifference), null],
      [...start, "specificity_difference", ...estimateColumns(reread.specificityDifference), null],
    ];
  });
  const columns = ["analyte", "kit", "specimen", "reader", "measure", ...ESTIMATE_COLUMNS, "exact_p"];
  return { name: "rereadings", columns, rows };
}
