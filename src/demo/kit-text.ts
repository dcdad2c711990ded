import { OPTICAL_CUTOFF } from "./readings.ts";

/** `kit.yaml` of the invented Kit Q, with its comments. */
export function demoKitText(): string {
  return `# Kit Q: an invented kit. No such product exists; the figures below are made up for the demonstration.
# A kit file copies what the instructions for use say. Nothing about any kit is built into the program.
format: fourfold-kit/1
id: KIT-Q
title: Kit Q, dual cassette for HBsAg and anti-HCV (invented)
intended_use: >-
  Screening for hepatitis B surface antigen and antibody to hepatitis C virus in adults,
  by trained staff and trained lay workers. Invented.

# One control line; each test line shows one analyte of the study file.
lines:
  - { id: C, role: control }
  - { id: T1, role: test, analyte: hbsag }
  - { id: T2, role: test, analyte: anti_hcv }

specimens:
  - type: venous_whole_blood
    volume_ul: { from: 15, to: 25 }
  - type: fingerstick
    volume_ul: { from: 15, to: 25 }

# Minutes are counted from the buffer, which follows the specimen within a minute.
timed_from: buffer_applied
waiting: { from_minutes: 0, to_minutes: 1 }
reading_window: { from_minutes: 15, to_minutes: 20 }

# Any visible test line is reactive, however faint.
faint_line: reactive

# One repeat, with a new cassette, when the first is invalid.
repeat: { max_attempts: 2 }

buffer_drops: { from: 2, to: 4 }
temperature_c: { from: 15, to: 30 }
use_within_minutes: 60

# The optical reader: from this intensity on a line counts as there.
instrument:
  title: optical reader of Kit Q (invented)
  unit: arbitrary units
  cutoffs: { C: ${OPTICAL_CUTOFF.C}, T1: ${OPTICAL_CUTOFF.T1}, T2: ${OPTICAL_CUTOFF.T2} }
  version: "1.0"

source:
  title: Kit Q, instructions for use (invented)
  version: "2026-01"
  page: 2 to 4
`;
}
