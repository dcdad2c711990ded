import { join, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { DONE } from "../io.ts";
import { progressOn } from "../progress.ts";
import { shownPath } from "../shown-path.ts";
import { findFolder } from "../study-folder.ts";

const STANDARD_OUT = "fourfold-report";

/** From a study folder to a report folder. */
export const report: CliCommand = {
  declare: (program) =>
    program
      .command("report")
      .summary("evaluate a study and write its report")
      .description(
        `Evaluates a study and writes a folder with report.html, evaluation.json, the tables as CSV and the charts as specifications. An earlier report of the same place is replaced as a whole. Without --out it goes to ${STANDARD_OUT} inside the study folder.`,
      )
      .argument("<folder>", "the study folder, with study.yaml")
      .option("--out <folder>", "the folder to write")
      .option("--json", "print the answers as JSON"),
  example: "fourfold report my-study\nfourfold report my-study --out results",
  async run(io, [typed], options) {
    const study = await findFolder(io, typed as string);
    const out = typeof options.out === "string" ? resolve(io.folder, options.out) : join(study, STANDARD_OUT);
    const { refuseForeign, writeReport, REPORT_FILE } = await import("../report-folder.ts");
    const { evaluateFolder } = await import("../read-folder.ts");
    const { headline } = await import("../headline.ts");
    await refuseForeign(io, out);
    const progress = progressOn(io);
    const evaluated = await evaluateFolder(study, progress);
    await writeReport(out, evaluated, progress);
    const place = shownPath(io, join(out, REPORT_FILE));
    if (options.json) {
      const { answers, alarms } = evaluated.evaluation;
      io.out(`${JSON.stringify({ report: place, answers, alarms }, null, 2)}\n`);
    } else {
      io.out(`${headline(evaluated.evaluation)}report: ${place}\n`);
    }
    return DONE;
  },
};
