import type { Command } from "commander";
import type { ExitCode, Io } from "./io.ts";

export type CommandOptions = Readonly<Record<string, string | boolean | undefined>>;

/**
 * One command. The declaration is light, for every `--help` loads it; what is heavy is imported
 * inside `run`.
 */
export interface CliCommand {
  /** Adds name, arguments and options to the program, and returns the command. */
  declare(program: Command): Command;
  /** Lines shown under "Example:" in the command's help. */
  readonly example: string;
  run(io: Io, given: readonly (string | undefined)[], options: CommandOptions): Promise<ExitCode>;
}
