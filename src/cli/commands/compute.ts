import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import { InputError } from "../../core/input-error.ts";
import type { CliCommand } from "../command.ts";
import { isMissing } from "../files.ts";
import { DONE, type Io, wrongUsage } from "../io.ts";

/** One method of the catalogue, from JSON to JSON. */
export const computeMethod: CliCommand = {
  declare: (program) =>
    program
      .command("compute")
      .summary("run one method of the catalogue on numbers")
      .description(
        'Runs one method. Takes JSON {"input": …, "options": …} and prints JSON with the method, its version, the values in full precision and notes. `fourfold methods ID` tells the fields.',
      )
      .argument("<method>", "its name, such as proportion.interval")
      .requiredOption("--input <file>", "a JSON file, or - for standard input"),
  example: `echo '{"input": {"count": 44, "total": 51}}' | fourfold compute proportion.interval --input -`,
  async run(io, [id], options) {
    const { methodNamed } = await import("../method-named.ts");
    const { compute } = await import("../../core/method.ts");
    const method = methodNamed(id as string);
    const asked = await readQuestion(io, options.input as string);
    const answer = asUsage(() => compute(method, asked.input, asked.options));
    io.out(`${JSON.stringify(answer, null, 2)}\n`);
    return DONE;
  },
};

/** A question that does not fit the method is the asker's to mend. */
function asUsage<Answer>(work: () => Answer): Answer {
  try {
    return work();
  } catch (error) {
    if (error instanceof InputError) throw wrongUsage(error.message);
    throw error;
  }
}

interface Question {
  readonly input: unknown;
  readonly options: unknown;
}

const FIELDS: readonly string[] = ["input", "options"];

async function readQuestion(io: Io, place: string): Promise<Question> {
  const text = await readText(io, place);
  const value = parsed(text, place);
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw wrongUsage(`${place}: expected {"input": …, "options": …}`);
  }
  const unknown = Object.keys(value).find((key) => !FIELDS.includes(key));
  if (unknown !== undefined) {
    throw wrongUsage(`${place}: no such field: ${JSON.stringify(unknown)}; expected input, options`);
  }
  if (!("input" in value)) throw wrongUsage(`${place}: the field input is missing`);
  return { input: value.input, options: "options" in value ? value.options : undefined };
}

async function readText(io: Io, place: string): Promise<string> {
  try {
    const bytes = place === "-" ? await io.input() : await readFile(resolve(io.folder, place));
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (error) {
    if (isMissing(error)) throw wrongUsage(`no such file: ${place}`);
    if (error instanceof TypeError) throw wrongUsage(`${place}: not text in UTF-8`);
    throw error;
  }
}

function parsed(text: string, place: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw wrongUsage(`${place}: not JSON: ${(error as Error).message}`);
  }
}
