import type { CellTruth } from "./cell-truth.ts";
import type { Fault, FaultKind } from "./fault.ts";
import { LOTS, SITES } from "./scenario.ts";
import type { Device, World } from "./world.ts";

/** A threat to validity that was planted or drawn, with the number of cases that the records must show. */
export interface AlarmTruth {
  readonly code: string;
  readonly count: number;
  readonly subjects: readonly string[];
}

/** Devices that the plan counts: first visits of first enrolments, no needless repeat. */
export function isCounted({ visit, repeatOf }: Device): boolean {
  const needless = repeatOf !== null && repeatOf.cause === null;
  return visit.number === 1 && visit.person.alreadyEnrolledAs === null && !needless;
}

export function alarmTruths(
  world: World,
  faults: readonly Fault[],
  cells: readonly CellTruth[],
  wrongTyped: number,
): AlarmTruth[] {
  const planted = (kind: FaultKind) => faults.filter((fault) => fault.kind === kind).length;
  const enriched = world.people.filter(({ arm, alreadyEnrolledAs }) => arm === "B" && !alreadyEnrolledAs);
  const { lot, site } = lotAtOneSite();
  const outside = cells
    .filter(({ analyte }) => analyte === "hbsag")
    .reduce((sum, { window }) => sum + window.early + window.late, 0);
  return [
    { code: "reference_triggered_by_index", count: planted("triggered_by_index"), subjects: ["REF-2"] },
    { code: "reference_not_blinded", count: planted("triggered_by_index"), subjects: [] },
    { code: "second_reader_copied", count: planted("second_reader_copied"), subjects: [] },
    { code: "enriched_sample", count: enriched.length, subjects: ["enriched"] },
    {
      code: "lot_confounded_with_site",
      count: world.devices.filter((device) => device.lot === lot && isCounted(device)).length,
      subjects: [lot, site],
    },
    { code: "outside_window", count: outside, subjects: ["venous_whole_blood", "fingerstick"] },
    { code: "wrong_typed_results", count: wrongTyped, subjects: ["R1"] },
  ];
}

/** The lot that only one site used, at a site that used no other. */
function lotAtOneSite(): { lot: string; site: string } {
  const sitesOf = (lot: string) => SITES.filter(({ lots }) => lots.includes(lot));
  const lot = LOTS.map((one) => one.lot).find((one) => sitesOf(one).length === 1) as string;
  return { lot, site: (sitesOf(lot)[0] as (typeof SITES)[number]).id };
}
