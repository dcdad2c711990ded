import * as v from "valibot";

/**
 * `kit.yaml`: what the maker's instructions say about one kit. Everything here is copied from the
 * instructions for use by the study's authors; nothing is built in.
 */
const Words = v.pipe(v.string(), v.minLength(1, "expected some text"));
const Name = v.pipe(
  v.string(),
  v.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]*$/, "expected a short name of letters, digits, _ . or -"),
);
const Minutes = v.pipe(v.number(), v.minValue(0, "expected 0 minutes or more"));

const MinuteRange = v.pipe(
  v.strictObject({
    from_minutes: v.pipe(Minutes, v.description("earliest, in minutes")),
    to_minutes: v.pipe(Minutes, v.description("latest, in minutes")),
  }),
  v.check((range) => range.from_minutes <= range.to_minutes, "expected from_minutes not above to_minutes"),
);
const NumberRange = v.pipe(
  v.strictObject({ from: v.number(), to: v.number() }),
  v.check((range) => range.from <= range.to, "expected from not above to"),
);

const Line = v.variant("role", [
  v.strictObject({
    id: v.pipe(Name, v.description("name of the line as printed on the cassette")),
    role: v.literal("control"),
  }),
  v.strictObject({
    id: v.pipe(Name, v.description("name of the line as printed on the cassette")),
    role: v.literal("test"),
    analyte: v.pipe(Name, v.description("the analyte that this line shows")),
  }),
]);

export const KitSchema = v.pipe(
  v.strictObject({
    format: v.pipe(v.literal("fourfold-kit/1"), v.description("what this file is, and its version")),
    id: v.pipe(Name, v.description("short name of the kit")),
    title: v.pipe(Words, v.description("name of the kit in words")),
    intended_use: v.optional(v.pipe(Words, v.description("intended use, as the instructions say"))),
    lines: v.optional(
      v.pipe(
        v.array(Line),
        v.description("one control line and one or more test lines; none for a test without lines"),
      ),
      [],
    ),
    specimens: v.pipe(
      v.array(
        v.strictObject({
          type: v.pipe(Name, v.description("specimen type, as written in the tables")),
          volume_ul: v.optional(v.pipe(NumberRange, v.description("specimen volume, microlitres"))),
        }),
      ),
      v.minLength(1, "expected at least one specimen type"),
      v.description("specimen types the kit accepts"),
    ),
    timed_from: v.optional(
      v.pipe(
        v.picklist(["specimen_applied", "buffer_applied"]),
        v.description("the step from which the reading window is counted; needed with lines"),
      ),
    ),
    waiting: v.optional(v.pipe(MinuteRange, v.description("wait between specimen and buffer, in minutes"))),
    reading_window: v.optional(
      v.pipe(MinuteRange, v.description("when the result may be read, in minutes; needed with lines")),
    ),
    faint_line: v.optional(
      v.pipe(
        v.picklist(["reactive", "nonreactive"]),
        v.description(
          "what a faint test line counts as; common practice: any visible line is reactive; needed with lines",
        ),
      ),
    ),
    repeat: v.pipe(
      v.strictObject({
        max_attempts: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(9)),
      }),
      v.description("devices allowed per specimen when the first is invalid (1: no repeat)"),
    ),
    buffer_drops: v.optional(v.pipe(NumberRange, v.description("drops of buffer, fewest and most"))),
    temperature_c: v.optional(v.pipe(NumberRange, v.description("working temperature, degrees Celsius"))),
    use_within_minutes: v.optional(v.pipe(Minutes, v.description("use after opening the pouch, minutes"))),
    instrument: v.optional(
      v.strictObject({
        title: Words,
        unit: v.pipe(Words, v.description("unit of the intensity")),
        cutoffs: v.pipe(
          v.record(Name, v.number()),
          v.description("smallest intensity that counts as a visible line, by line"),
        ),
        version: v.optional(Words),
      }),
    ),
    source: v.pipe(
      v.strictObject({ title: Words, version: v.optional(Words), page: v.optional(Words) }),
      v.description("the document these statements were copied from"),
    ),
  }),
  v.check(
    (kit) => kit.lines.length === 0 || kit.lines.filter((line) => line.role === "control").length === 1,
    "expected exactly one control line in lines",
  ),
  v.check(
    (kit) => kit.lines.length === 0 || kit.lines.some((line) => line.role === "test"),
    "expected at least one test line in lines",
  ),
  v.check(
    (kit) => new Set(kit.lines.map((line) => line.id)).size === kit.lines.length,
    "expected each line once in lines",
  ),
  v.check(
    ({ lines, ...needed }) =>
      lines.length === 0 ||
      [needed.timed_from, needed.reading_window, needed.faint_line].every((field) => field !== undefined),
    "expected timed_from, reading_window and faint_line beside lines",
  ),
);

export type Kit = v.InferOutput<typeof KitSchema>;

/** A kit with lines, and so with all that reading them needs. */
export type LineKit = Kit & {
  readonly [Field in "timed_from" | "reading_window" | "faint_line"]-?: NonNullable<Kit[Field]>;
};

/** The schema lets no kit with lines lack the rest. */
export function hasLines(kit: Kit): kit is LineKit {
  return kit.lines.length > 0;
}
