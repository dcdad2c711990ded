import type { Estimate } from "../../core/estimate.ts";
import { note } from "../../core/note.ts";
import { chanceCorrected } from "../../methods/agreement/chance-corrected.ts";
import { percent } from "../../methods/agreement/percent.ts";
import type { Agreement } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { DeviceReader, ReadDevices } from "../read-devices.ts";
import type { Worktop } from "../worktop.ts";
import { type BothRead, disagreements } from "./disagreements.ts";
import { lineStrength } from "./line-strength.ts";

/**
 * Every two readers of the same devices, eye and eye or eye and instrument: how far their valid results
 * agree, and where they do not. Items are devices, not people: a repeated device counts by itself. Two
 * readers who share no device are no pair.
 */
export function agreementSection(worktop: Worktop, read: readonly ReadDevices[]): Agreement[] {
  return read.flatMap((group) =>
    group.readers.flatMap((first, index) =>
      group.readers.slice(index + 1).flatMap((second) => onePair(worktop, group, first, second) ?? []),
    ),
  );
}

function onePair(
  worktop: Worktop,
  group: ReadDevices,
  first: DeviceReader,
  second: DeviceReader,
): Agreement | null {
  const both: BothRead[] = [];
  let unpaired = 0;
  for (const device of group.devices) {
    const [one, other] = [device.get(first.name), device.get(second.name)];
    if (one !== undefined && other !== undefined) both.push([one, other]);
    else if (one !== undefined || other !== undefined) unpaired += 1;
  }
  if (both.length === 0) return null;
  const invalid = { both: 0, firstOnly: 0, secondOnly: 0 };
  const valid: BothRead[] = [];
  for (const pair of both) {
    const [one, other] = pair.map(({ result }) => result === "invalid");
    if (one && other) invalid.both += 1;
    else if (one) invalid.firstOnly += 1;
    else if (other) invalid.secondOnly += 1;
    else valid.push(pair);
  }
  const counts = countsOf(valid);
  return {
    analyte: group.analyte,
    kit: group.kit,
    specimen: group.specimen,
    first: first.name,
    second: second.name,
    methods: [first.method, second.method],
    counts,
    invalid,
    unpaired,
    ...coefficients(worktop, counts, unpaired),
    lineStrength: lineStrength(worktop, [first, second], valid),
    disagreements: disagreements(worktop, valid),
  };
}

function countsOf(valid: readonly BothRead[]): Agreement["counts"] {
  const counts = { bothReactive: 0, firstOnly: 0, secondOnly: 0, bothNonreactive: 0 };
  for (const [first, second] of valid) {
    const [one, other] = [first.result === "reactive", second.result === "reactive"];
    if (one) counts[other ? "bothReactive" : "firstOnly"] += 1;
    else counts[other ? "secondOnly" : "bothNonreactive"] += 1;
  }
  return counts;
}

const PERCENT_NAMES = {
  overallAgreement: "overall",
  positivePercentAgreement: "positivePercentAgreement",
  negativePercentAgreement: "negativePercentAgreement",
  positiveSpecificAgreement: "positiveAgreement",
  negativeSpecificAgreement: "negativeAgreement",
};
const CHANCE_NAMES = {
  kappa: "kappa",
  pabak: "pabak",
  ac1: "ac1",
  krippendorffAlpha: "krippendorffAlpha",
  prevalenceIndex: "prevalenceIndex",
  biasIndex: "biasIndex",
  paradox: "paradox",
};

function coefficients(worktop: Worktop, counts: Agreement["counts"], unpaired: number) {
  const { bothReactive, firstOnly, secondOnly, bothNonreactive } = counts;
  const table = [
    [bothReactive, firstOnly],
    [secondOnly, bothNonreactive],
  ];
  const shares = worktop.compute(percent, counts, worktop.interval);
  const chance = worktop.compute(chanceCorrected, { table }, worktop.interval);
  const { kappa, pabak, ac1, krippendorffAlpha, prevalenceIndex, biasIndex, paradox } = chance.values;
  const notes = [...notesUnder(shares.notes, PERCENT_NAMES), ...notesUnder(chance.notes, CHANCE_NAMES)];
  if (unpaired > 0) {
    const message = "devices that only one of the two read are in none of the figures";
    notes.push(note("read_by_one", "unpaired", message));
  }
  return {
    overall: shares.values.overallAgreement,
    positivePercentAgreement: shares.values.positivePercentAgreement,
    negativePercentAgreement: shares.values.negativePercentAgreement,
    positiveAgreement: estimateOf(shares.values.positiveSpecificAgreement),
    negativeAgreement: estimateOf(shares.values.negativeSpecificAgreement),
    kappa,
    pabak,
    ac1,
    krippendorffAlpha: krippendorffAlpha.value,
    prevalenceIndex,
    biasIndex,
    paradox: paradox ?? "none",
    notes,
  };
}

function estimateOf({ value, lower, upper }: Estimate): Estimate {
  return { value, lower, upper };
}
