import * as v from "valibot";
import { Name, OpenShare, Words } from "./plain-fields.ts";
import { File } from "./study-fields.ts";

/** A dilution panel: devices run at known concentrations, to find how little of the analyte is still seen. */
const Panel = v.strictObject({
  id: Name,
  title: Words,
  analyte: v.pipe(Name, v.description("an analyte of this file")),
  kit: v.optional(v.pipe(Name, v.description("absent: the main kit"))),
  table: v.pipe(File, v.description("one row for each concentration and run")),
  columns: v.strictObject({
    concentration: v.pipe(v.string(), v.description("concentration of the analyte; 0: a blank")),
    tested: v.pipe(v.string(), v.description("devices with a valid result")),
    reactive: v.pipe(v.string(), v.description("of these, reactive ones")),
    lot: v.optional(v.pipe(v.string(), v.description("lots are fitted together, and each alone"))),
  }),
  unit: v.pipe(Words, v.description("unit of the concentrations")),
  chance: v.pipe(
    OpenShare,
    v.description("chance of a reactive result that defines the limit of detection, e.g. 0.95"),
  ),
  lack_of_fit: v.pipe(
    v.picklist(["ignore", "widen", "widen_when_shown"]),
    v.description(
      "whether limits are widened by the scatter around the line: never, where above chance, or where a test shows it",
    ),
  ),
  source: v.optional(v.pipe(Words, v.description("who ran the panel, and how"))),
});
export type Panel = v.InferOutput<typeof Panel>;

export const Panels = v.array(Panel);
