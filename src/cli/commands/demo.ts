import { join } from "node:path";
import type { CliCommand } from "../command.ts";
import { report } from "./report.ts";

/** The demo study that comes with Fourfold, evaluated like any other. */
export const demo: CliCommand = {
  declare: (program) =>
    program
      .command("demo")
      .summary("evaluate the demo study that comes with Fourfold")
      .description(
        "Evaluates the simulated demo study and writes its report, as `fourfold report` does. Place, kit and people of the demo are invented.",
      )
      .option("--out <folder>", "the folder to write", "fourfold-report"),
  example: "fourfold demo --out demo-report",
  run: (io, _given, options) => report.run(io, [join(io.home, "data", "demo")], options),
};
