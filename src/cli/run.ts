import "../core/same-math.ts";
import { Command, CommanderError } from "commander";
import { SOFTWARE_VERSION } from "../core/version.ts";
import type { CliCommand, CommandOptions } from "./command.ts";
import { algorithm } from "./commands/algorithm.ts";
import { check } from "./commands/check.ts";
import { computeMethod } from "./commands/compute.ts";
import { demo } from "./commands/demo.ts";
import { methods } from "./commands/methods.ts";
import { plan } from "./commands/plan.ts";
import { pool } from "./commands/pool.ts";
import { report } from "./commands/report.ts";
import { start } from "./commands/start.ts";
import { verify } from "./commands/verify.ts";
import { workbench } from "./commands/workbench.ts";
import { DONE, type ExitCode, type Io, PROGRAM_FAULT, Refusal, WRONG_USAGE } from "./io.ts";

/** In the order in which a study needs them. */
const COMMANDS: readonly CliCommand[] = [
  plan,
  algorithm,
  pool,
  start,
  check,
  report,
  verify,
  workbench,
  methods,
  computeMethod,
  demo,
];

const INTRODUCTION = `Fourfold: how well does a rapid test do in the field?
Reads a study folder, checks it, and writes one report. Nothing leaves this machine.
Not a medical device: for evaluation, planning and teaching, never for the result of a single person.`;

const ENDING = `
Exit codes: 0 done; 1 the data or a check failed; 2 wrong usage; 70 a fault of Fourfold itself.

Example:
  fourfold demo`;

/**
 * Runs one command line, given without the program's own name. Writes through `io` only, and never
 * throws.
 */
export async function runCommandLine(words: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = DONE;
  const program = buildProgram(io, (outcome) => {
    code = outcome;
  });
  try {
    await program.parseAsync([...words], { from: "user" });
    return code;
  } catch (error) {
    return explain(error, io);
  }
}

function buildProgram(io: Io, finish: (code: ExitCode) => void): Command {
  const program = new Command("fourfold")
    .description(INTRODUCTION)
    .version(SOFTWARE_VERSION, "-v, --version", "print the version")
    .helpOption("-h, --help", "print this help")
    .helpCommand("help [command]", "print the help of a command")
    .addHelpText("after", ENDING)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: (text) => io.err(text),
      getOutHasColors: () => io.colour,
      getErrHasColors: () => false,
    })
    .configureHelp({ styleTitle: (title) => (io.colour ? `\u001b[1m${title}\u001b[22m` : title) });
  for (const entry of COMMANDS) {
    entry
      .declare(program)
      .addHelpText("after", `\nExample:\n  ${entry.example.replaceAll("\n", "\n  ")}`)
      .action(async (...received: unknown[]) => {
        received.pop(); // the command itself, which commander adds at the end
        const options = received.pop() as CommandOptions;
        finish(await entry.run(io, received as (string | undefined)[], options));
      });
  }
  return program;
}

/** What came between the user and the result, in words and as an exit code. */
function explain(error: unknown, io: Io): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? DONE : WRONG_USAGE;
  if (error instanceof Refusal) {
    io.err(`fourfold: ${error.message}\n`);
    return error.code;
  }
  if (isSystemError(error) && error.code !== undefined && error.code in SYSTEM_WORDS) {
    io.err(`fourfold: ${systemWords(error)}\n`);
    return WRONG_USAGE;
  }
  io.err(`fourfold: a fault of the program, not of your data; please report it\n${traceOf(error)}\n`);
  return PROGRAM_FAULT;
}

function traceOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}

function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "syscall" in error && "code" in error;
}

const SYSTEM_WORDS: Readonly<Record<string, string>> = {
  EACCES: "no permission",
  EPERM: "no permission",
  ENOENT: "not found",
  ENOTDIR: "not a folder",
  EISDIR: "a folder, not a file",
  EROFS: "the disk is read-only",
};

function systemWords(error: NodeJS.ErrnoException): string {
  const why = SYSTEM_WORDS[error.code ?? ""] ?? error.message;
  return error.path === undefined ? why : `${error.path}: ${why}`;
}
