import { readFile } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { STUDY_FILE } from "../../records/study-file.ts";
import type { CliCommand } from "../command.ts";
import { isMissing, standsAt } from "../files.ts";
import { DONE, FAILED, type Io, wrongUsage } from "../io.ts";
import { type Progress, progressOn } from "../progress.ts";
import { shownPath } from "../shown-path.ts";
import { findFolder } from "../study-folder.ts";
import type { Findings } from "../verify-findings.ts";

/** Does a report still hold: its page, its inputs, its numbers? */
export const verify: CliCommand = {
  declare: (program) =>
    program
      .command("verify")
      .summary("tell whether a report still holds")
      .description(
        "Reads a report back, draws its page again from the numbers inside it, evaluates the study folder anew, and names everything that differs: page, input files, numbers. Exit code 1 if anything does. Without --study the folder above the report is taken if it holds a study.yaml; otherwise only the page is checked. A plan.html is held against its plan file in the same way, an algorithm.html against its algorithm file, a pool.html against its pooling file and table.",
      )
      .argument("<report>", "the report.html, a plan.html, an algorithm.html or a pool.html")
      .option(
        "--study <folder>",
        "the folder of the study, plan, algorithm or pooling file, to evaluate anew",
      )
      .option("--json", "print the findings as JSON"),
  example: "fourfold verify my-study/fourfold-report/report.html --study my-study",
  async run(io, [typed], options) {
    const path = resolve(io.folder, typed as string);
    const html = await readReport(path, typed as string);
    const { inWords } = await import("../verify-findings.ts");
    const made = await madeFrom(html);
    const folder = await folderOf(io, path, made, options.study as string | undefined);
    const findings = await made.verify(html, folder, progressOn(io));
    io.out(options.json ? `${JSON.stringify(findings, null, 2)}\n` : inWords(findings));
    return findings.holds ? DONE : FAILED;
  },
};

/** What a page was made from: a study, a plan, a file of algorithms or a table of studies. */
interface MadeFrom {
  readonly what: "study" | "plan" | "algorithm" | "pooling";
  readonly file: string;
  readonly verify: (html: string, folder: string | null, progress: Progress) => Promise<Findings>;
}

async function madeFrom(html: string): Promise<MadeFrom> {
  const { isPlanPage, planFileOf, verifyPlan } = await import("../verify-plan.ts");
  if (isPlanPage(html)) return { what: "plan", file: planFileOf(html), verify: verifyPlan };
  const { isAlgorithmPage, algorithmFileOf, verifyAlgorithm } = await import("../verify-algorithm.ts");
  if (isAlgorithmPage(html)) {
    return { what: "algorithm", file: algorithmFileOf(html), verify: verifyAlgorithm };
  }
  const { isPoolPage, poolFileOf, verifyPool } = await import("../verify-pool.ts");
  if (isPoolPage(html)) return { what: "pooling", file: poolFileOf(html), verify: verifyPool };
  const { verifyReport } = await import("../verify-report.ts");
  return { what: "study", file: STUDY_FILE, verify: verifyReport };
}

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
  { what, file }: MadeFrom,
  typed: string | undefined,
): Promise<string | null> {
  if (typed !== undefined) return findFolder(io, typed);
  const above = dirname(dirname(report));
  if ((await standsAt(resolve(above, file))) === null) {
    io.err("no study folder given with --study: only the page is checked\n");
    return null;
  }
  io.err(`${what} folder: ${shownPath(io, above)}\n`);
  return above;
}
