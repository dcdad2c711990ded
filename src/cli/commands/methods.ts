import type { Method, WorkedExample } from "../../core/method.ts";
import type { CliCommand } from "../command.ts";
import type { FieldLine } from "../fields-of.ts";
import { DONE, type ExitCode, type Io } from "../io.ts";

/** The catalogue: all methods in a list, or one with everything about it. */
export const methods: CliCommand = {
  declare: (program) =>
    program
      .command("methods")
      .summary("list the methods, or explain one")
      .description(
        "Without a name: lists the catalogue of methods. With one: its question, fields with their units, formula, cautions, sources and worked examples.",
      )
      .argument("[method]", "its name, such as proportion.interval")
      .option("--json", "print as JSON, with the fields as JSON Schema"),
  example: "fourfold methods\nfourfold methods proportion.interval",
  async run(io, [id], options) {
    return id === undefined ? listAll(io, options.json === true) : explainOne(io, id, options.json === true);
  },
};

async function listAll(io: Io, json: boolean): Promise<ExitCode> {
  const { catalogue } = await import("../../methods/index.ts");
  if (json) {
    const entries = catalogue.map(({ id, version, title, question }) => ({ id, version, title, question }));
    io.out(`${JSON.stringify(entries, null, 2)}\n`);
    return DONE;
  }
  const width = Math.max(...catalogue.map((method) => method.id.length));
  for (const method of catalogue) io.out(`${method.id.padEnd(width)}  ${method.question}\n`);
  return DONE;
}

async function explainOne(io: Io, id: string, json: boolean): Promise<ExitCode> {
  const { methodNamed } = await import("../method-named.ts");
  const method = methodNamed(id);
  if (json) io.out(`${JSON.stringify(await asJson(method), null, 2)}\n`);
  else io.out(await inWords(method));
  return DONE;
}

async function asJson(method: Method) {
  const { toJsonSchema } = await import("@valibot/to-json-schema");
  const schema = (part: Method["input"]) => toJsonSchema(part, { errorMode: "ignore", typeMode: "input" });
  const { input, options, values, run: _run, ...words } = method;
  return { ...words, input: schema(input), options: schema(options), values: schema(values) };
}

async function inWords(method: Method): Promise<string> {
  const { fieldsOf } = await import("../fields-of.ts");
  const { sources } = await import("../../methods/sources.ts");
  const known: Readonly<Record<string, { citation: string; seen: boolean }>> = sources;
  const cited = method.sources.map((key) => {
    const source = known[key];
    if (source === undefined) return `  ${key}`;
    return `  ${source.citation}${source.seen ? "" : " (recalled, not seen in the source)"}`;
  });
  const blocks = [
    `${method.id}, version ${method.version}: ${method.title}\n${method.question}`,
    `Input\n${fieldTable(fieldsOf(method.input))}`,
    `Options\n${fieldTable(fieldsOf(method.options))}`,
    `Values\n${fieldTable(fieldsOf(method.values))}`,
    `Formula\n  ${method.formula}`,
    `Caution\n  ${method.caution}`,
    `Sources\n${cited.join("\n")}`,
    `Worked examples\n${method.examples.map(exampleText).join("\n")}`,
  ];
  return `${blocks.join("\n\n")}\n`;
}

function fieldTable(fields: readonly FieldLine[]): string {
  if (fields.length === 0) return "  none";
  const rows = fields.map((field) => [
    field.name || "(the whole)",
    [field.unit, field.optional ? optionalText(field.standard) : null].filter((part) => part).join(", "),
    field.meaning ?? "",
    `[${field.shape}]`,
  ]);
  const widths = [0, 1].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows
    .map(([name, unit, meaning, shape]) =>
      `  ${name?.padEnd(widths[0] ?? 0)}  ${unit?.padEnd(widths[1] ?? 0)}  ${meaning} ${shape}`.trimEnd(),
    )
    .join("\n");
}

function optionalText(standard: unknown): string {
  return standard === undefined ? "may be left out" : `default ${JSON.stringify(standard)}`;
}

function exampleText(example: WorkedExample): string {
  const asked = {
    input: example.input,
    ...(example.options === undefined ? {} : { options: example.options }),
  };
  const recomputed = example.recomputedBy === undefined ? "" : `; recomputed by ${example.recomputedBy}`;
  const recalled = example.memory ? "; recalled, not seen in the source" : "";
  return [
    `  ${example.name} (${example.source}${recomputed}${recalled})`,
    `    ${JSON.stringify(asked)}`,
    ...Object.entries(example.expect).map(([path, value]) => `    ${path} = ${value}`),
  ].join("\n");
}
