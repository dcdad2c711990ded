import * as v from "valibot";
import { type Kit, KitSchema } from "../../../src/records/kit.ts";
import { type Study, StudySchema } from "../../../src/records/study.ts";

/** The invented demonstration study: a two-marker cassette in five clinics of Selbria. */
const reference = {
  hbsag: {
    title: "enzyme immunoassay, repeated if reactive, confirmed by neutralisation",
    role: "reference_standard",
    discrepancies: "none settled: the reference algorithm ran on everyone, whatever the rapid result",
    algorithm: [
      {
        assay: "EIA-1",
        leads_to: { reactive: "EIA-1-repeat", nonreactive: "negative", failed: "indeterminate" },
      },
      {
        assay: "EIA-1-repeat",
        several: "any_reactive",
        leads_to: { reactive: "neutralisation", nonreactive: "negative" },
      },
      {
        assay: "neutralisation",
        leads_to: { reactive: "positive", nonreactive: "negative", failed: "indeterminate" },
      },
    ],
  },
  hcv: {
    title: "enzyme immunoassay, confirmed by immunoblot if reactive",
    role: "reference_standard",
    discrepancies: "none settled: the reference algorithm ran on everyone, whatever the rapid result",
    algorithm: [
      { assay: "EIA-C", leads_to: { reactive: "immunoblot", nonreactive: "negative" } },
      {
        assay: "immunoblot",
        leads_to: { reactive: "positive", nonreactive: "negative", indeterminate: "indeterminate" },
      },
    ],
  },
} as const;

const PROTOCOL = "study protocol 1.2, section 6";

export const sampleStudy: Study = v.parse(StudySchema, {
  format: "fourfold-study/1",
  id: "SELBRIA-HEP",
  title: "A two-marker hepatitis cassette in five clinics of Selbria",
  status: "locked",
  protocol: { version: "1.2", registration: "invented, not registered" },
  dates: { first: "2025-09-01", last: "2026-01-30" },
  kit: "kit.yaml",
  sites: [
    { id: "B", title: "Brisselmouth Hospital" },
    { id: "O", title: "Ondavell Clinic" },
    { id: "T", title: "Teroon Lake Health Centre" },
    { id: "K", title: "Skerrold Outreach Unit" },
    { id: "L", title: "Mavenfold Liver Clinic" },
  ],
  arms: [
    { id: "A", title: "Consecutive attenders of three general clinics", selection: "consecutive" },
    { id: "E", title: "People at risk or already known, two special clinics", selection: "enriched" },
  ],
  analytes: [
    { id: "hbsag", title: "HBsAg", reference: reference.hbsag },
    { id: "hcv", title: "Anti-HCV", reference: reference.hcv },
  ],
  specimens: [
    { type: "venous", title: "venous whole blood" },
    { type: "fingerstick", title: "fingerstick blood" },
  ],
  readers: { use: "primary", primary: "R1" },
  criteria: [
    {
      id: "hbsag-se",
      analyte: "hbsag",
      measure: "sensitivity",
      at_least: 0.95,
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hbsag-sp",
      analyte: "hbsag",
      measure: "specificity",
      at_least: 0.98,
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hcv-se",
      analyte: "hcv",
      measure: "sensitivity",
      at_least: 0.95,
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hcv-sp",
      analyte: "hcv",
      measure: "specificity",
      at_least: 0.97,
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hcv-se-fs",
      analyte: "hcv",
      measure: "sensitivity",
      specimen: "fingerstick",
      at_least: 0.98,
      importance: "secondary",
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hcv-invalid",
      analyte: "hcv",
      measure: "invalid_rate",
      specimen: "fingerstick",
      at_most: 0.05,
      importance: "secondary",
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
  ],
  prevalences: [
    {
      id: "antenatal",
      title: "Antenatal care",
      values: { hbsag: 0.045, hcv: 0.008 },
      source: "invented register, 2024",
      observed: { hbsag: { reactive: 412, tested: 8120 }, hcv: { reactive: 61, tested: 8120 } },
    },
    { id: "outreach", title: "Outreach", values: { hbsag: 0.08, hcv: 0.3 }, source: "invented survey, 2023" },
    { id: "exposure", title: "Blood-exposure clinic", values: { hbsag: 0.02, hcv: 0.012 } },
  ],
  strata: [
    { id: "site", title: "Site", column: "site_id", table: "participants", planned: true },
    { id: "lot", title: "Lot", column: "lot_id", table: "index_tests", planned: true },
    {
      id: "age",
      title: "Age band",
      column: "age_band",
      table: "participants",
      planned: false,
      ordered: ["15-29", "30-49", "50+"],
    },
  ],
  cluster: "site",
  comparisons: [
    {
      id: "hcv-fingerstick",
      title: "Fingerstick against venous blood",
      analyte: "hcv",
      first: { specimen: "fingerstick" },
      second: {},
      margin: 0.05,
      source: PROTOCOL,
      entered_on: "2025-07-01",
    },
    {
      id: "hbsag-fingerstick",
      title: "Fingerstick against venous blood, different people",
      analyte: "hbsag",
      first: { specimen: "fingerstick" },
      second: {},
    },
  ],
  decision: { control: "all_must_pass" },
  treatment: { invalid: "set_aside", outside_window: "keep", repeat: "last" },
  interval: { method: "clopper_pearson", level: 0.95 },
  seed: 20260401,
  funding: "Invented for demonstration; no funds, no maker involved.",
  deviations: [
    "Reader 2 joined site K two weeks late; 34 cassettes there have one reader only.",
    "The logger of site T stopped for nine days in November; storage in that time is unknown.",
  ],
  records: {
    shape: "lines",
    participants: "participants.csv",
    specimens: "specimens.csv",
    index_tests: "index_tests.csv",
    line_readings: "line_readings.csv",
    interpretations: "interpretations.csv",
    reference_tests: "reference_tests.csv",
    lots: "lots.csv",
    operators: "operators.csv",
  },
});

export const sampleKit: Kit = v.parse(KitSchema, {
  format: "fourfold-kit/1",
  id: "kit-q",
  title: "Kit Q",
  intended_use: "aid to finding people with HBsAg or anti-HCV, in the hands of trained staff",
  lines: [
    { id: "C", role: "control" },
    { id: "T1", role: "test", analyte: "hbsag" },
    { id: "T2", role: "test", analyte: "hcv" },
  ],
  specimens: [
    { type: "venous", volume_ul: { from: 18, to: 22 } },
    { type: "fingerstick", volume_ul: { from: 18, to: 22 } },
  ],
  timed_from: "buffer_applied",
  waiting: { from_minutes: 0, to_minutes: 1 },
  reading_window: { from_minutes: 15, to_minutes: 20 },
  faint_line: "reactive",
  repeat: { max_attempts: 2 },
  buffer_drops: { from: 2, to: 4 },
  temperature_c: { from: 15, to: 30 },
  use_within_minutes: 60,
  instrument: {
    title: "optical reader",
    unit: "arbitrary units",
    cutoffs: { C: 5, T1: 10, T2: 12.6 },
    version: "cut-offs 3",
  },
  source: { title: "Kit Q, instructions for use", version: "4", page: "2-6" },
});

/** Another kit, without lines: an instrument gives its result. */
export const secondKit: Kit = v.parse(KitSchema, {
  format: "fourfold-kit/1",
  id: "kit-p",
  title: "Kit P, single cassette (invented)",
  specimens: [{ type: "venous" }],
  repeat: { max_attempts: 1 },
  source: { title: "Kit P, instructions for use", version: "1" },
});
