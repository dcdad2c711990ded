/** The kit file beside the template of a plan. The same text as `data/template/kit.yaml`. */
export const KIT_TEMPLATE = `# The kit file: what the instructions for use say about one kit. Copy it from the instructions, and
# name the page; nothing about any kit is built into the program. The examples belong to an invented
# kit. Limits are not judged here: what lies outside them is pointed out in the report as a deviation.

# What this file is, and its version. Leave it as it stands.
format: fourfold-kit/1

# A short name of the kit, as written in the column kit_id.
id: KIT-X

# The name of the kit in words.
title: Kit X, dual cassette for HBsAg and anti-HCV

# Intended use, as the instructions say.
intended_use: Screening of adults by trained staff

# The lines of the cassette: one control line, and one or more test lines, each with the analyte of
# the study file that it shows. The ids are those of the column line_id.
lines:
  - { id: C, role: control }
  - { id: T1, role: test, analyte: hbsag }
  - { id: T2, role: test, analyte: anti_hcv }

# Specimen types that the kit accepts, and how much of each, in microlitres.
specimens:
  - { type: venous_whole_blood, volume_ul: { from: 15, to: 25 } }
  - { type: fingerstick, volume_ul: { from: 15, to: 25 } }

# The step from which the reading window is counted: specimen_applied or buffer_applied.
timed_from: buffer_applied

# How long to wait between specimen and buffer, in minutes. Leave out if the instructions say nothing.
waiting: { from_minutes: 0, to_minutes: 1 }

# When the result may be read, in minutes after the timed step; both ends belong to the window.
reading_window: { from_minutes: 15, to_minutes: 20 }

# What a faint test line counts as: reactive or nonreactive. Most instructions say reactive.
faint_line: reactive

# How many devices may be used on one specimen when the first is invalid; 1 means no repeat.
repeat: { max_attempts: 2 }

# Drops of buffer, fewest and most.
buffer_drops: { from: 2, to: 4 }

# Working temperature, degrees Celsius.
temperature_c: { from: 15, to: 30 }

# Minutes within which a device must be used after its pouch was opened.
use_within_minutes: 60

# An optical reader, if one was used: the smallest intensity that counts as a visible line, for every
# line, the control line too. Leave the field out if there was none.
instrument:
  title: optical reader of Kit X
  unit: arbitrary units
  cutoffs: { C: 30, T1: 10, T2: 12.6 }
  version: "1.0"

# The document that all this was copied from.
source:
  title: Kit X, instructions for use
  version: "2026-01"
  page: 2 to 4
`;

/** The kit of the invented plan. The same text as `data/plan/kit.yaml`. */
export const KIT_EXAMPLE = `# Kit Q: an invented kit. No such product exists; the figures below are made up for the demonstration.
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
  cutoffs: { C: 30, T1: 10, T2: 12.59 }
  version: "1.0"

source:
  title: Kit Q, instructions for use (invented)
  version: "2026-01"
  page: 2 to 4
`;
