import { readFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { STUDY_FILE } from "../../records/study-file.ts";
import type { CliCommand } from "../command.ts";
import { isMissing, standsAt } from "../files.ts";
import { DONE, FAILED, type Io, wrongUsage } from "../io.ts";
import { progressOn } from "../progress.ts";
import { shownPath } from "../shown-path.ts";
import { findFolder } from "../study-folder.ts";

/** Does a report still hold: its page, its inputs, its numbers? */
export const verify: CliCommand = {
  declare: (program) =>
    program
      .command("verify")
      .summary("tell whether a report still holds")
      .description(
        "Reads a report back, draws its page again from the numbers inside it, evaluates the study folder anew, and names everything that differs: page, input files, numbers. Exit code 1 if anything does. Without --study the folder above the report is taken if it holds a study.yaml; otherwise only the page is checked. A plan.html is held against its plan file in the same way.",
      )
      .argument("<report>", "the report.html, or a plan.html")
      .option("--study <folder>", "the folder of the study, or of the plan, to evaluate anew")
      .option("--json", "print the findings as JSON"),
  example: "fourfold verify my-study/fourfold-report/report.html --study my-study",
  async run(io, [typed], options) {
    const path = resolve(io.folder, typed as string);
    const html = await readReport(path, typed as string);
    const { isPlanPage, planFileOf, verifyPlan } = await import("../verify-plan.ts");
    const { verifyReport, inWords } = await import("../verify-report.ts");
    const ofPlan = isPlanPage(html);
    const file = ofPlan ? planFileOf(html) : STUDY_FILE;
    const folder = await folderOf(io, path, file, options.study as string | undefined);
    const findings = await (ofPlan ? verifyPlan : verifyReport)(html, folder, progressOn(io));
    io.out(options.json ? `${JSON.stringify(findings, null, 2)}\n` : inWords(findings));
    return findings.holds ? DONE : FAILED;
  },
};

async function readReport(path: string, typed: string): Promise<string> {
  try {
    return await readFile(path, "utf8");
  } catch (error) {
    if (isMissing(error)) throw wrongUsage(`no such file: ${typed}`);
    throw error;
  }
}

/** The folder that holds the file which a page was made from: the one named, or that above the page's own. */
async function folderOf(
  io: Io,
  report: string,
  file: string,
  typed: string | undefined,
): Promise<string | null> {
  if (typed !== undefined) return findFolder(io, typed);
  const above = dirname(dirname(report));
  if ((await standsAt(resolve(above, file))) === null) {
    io.err("no study folder given with --study: only the page is checked\n");
    return null;
  }
  io.err(`${file === STUDY_FILE ? "study" : "plan"} folder: ${shownPath(io, above)}\n`);
  return above;
}
