import type { RowIssue, Severity } from "../../records/model.ts";
import type { CliCommand } from "../command.ts";
import { DONE, FAILED, type Io } from "../io.ts";
import { progressOn } from "../progress.ts";
import { inOneLine, type Reading, readFolder } from "../read-folder.ts";
import { findFolder } from "../study-folder.ts";

/** Reads a study folder and tells everything that is wrong with it. */
export const check: CliCommand = {
  declare: (program) =>
    program
      .command("check")
      .summary("tell what is wrong with the data of a study")
      .description(
        "Reads a study folder and lists every fault: file, row, column, what was expected and what was found, and how to mend it. Exit code 1 if there are errors.",
      )
      .argument("<folder>", "the study folder, with study.yaml")
      .option("--json", "print the list as JSON"),
  example: "fourfold check my-study",
  async run(io, [typed], options) {
    const folder = await findFolder(io, typed as string);
    const reading = await readFolder(folder, progressOn(io));
    const issues = reading.ok ? reading.records.issues : reading.issues;
    if (options.json) io.out(`${JSON.stringify(asJson(reading, issues), null, 2)}\n`);
    else await printIssues(io, reading, issues);
    return reading.ok && counted(issues).error === 0 ? DONE : FAILED;
  },
};

function counted(issues: readonly RowIssue[]): Record<Severity, number> {
  const counts = { error: 0, warning: 0, note: 0 };
  for (const issue of issues) counts[issue.severity] += 1;
  return counts;
}

function asJson(reading: Reading, issues: readonly RowIssue[]) {
  return {
    readable: reading.ok,
    counts: counted(issues),
    files: reading.ok ? reading.records.ledger : [],
    issues,
  };
}

const GRAVEST_FIRST: readonly Severity[] = ["error", "warning", "note"];
const CONSEQUENCE = {
  row_set_aside: "row set aside",
  value_ignored: "value ignored",
  kept: "kept",
} as const;

async function printIssues(io: Io, reading: Reading, issues: readonly RowIssue[]): Promise<void> {
  const { issueRule } = await import("../../records/issue-rules.ts");
  for (const group of grouped(issues)) {
    const { rule, severity, file, consequence } = group[0] as RowIssue;
    const entry = issueRule(rule);
    io.out(`${file}: ${severity}: ${rule} (${group.length}, ${CONSEQUENCE[consequence]})\n`);
    if (entry !== null) io.out(`  ${entry.meaning}\n`);
    for (const issue of group) io.out(`    ${inOneLine(issue)}\n`);
    if (entry !== null) io.out(`  to mend it: ${entry.fix}\n`);
    io.out("\n");
  }
  if (reading.ok) {
    for (const { file, rows, analysed } of reading.records.ledger) {
      io.out(`${file}: ${rows} rows, ${analysed} used, ${rows - analysed} set aside\n`);
    }
  }
  const { error, warning, note } = counted(issues);
  const verdict = reading.ok ? "" : "the study can't be read; ";
  io.out(`${verdict}${error} errors, ${warning} warnings, ${note} notes\n`);
}

/** By file in the order of their first issue, the gravest first, then by rule. */
function grouped(issues: readonly RowIssue[]): RowIssue[][] {
  const files = [...new Set(issues.map((issue) => issue.file))];
  const groups = new Map<string, RowIssue[]>();
  for (const issue of issues) {
    const key = [
      String(files.indexOf(issue.file)).padStart(4, "0"),
      GRAVEST_FIRST.indexOf(issue.severity),
      issue.rule,
      issue.consequence,
    ].join(" ");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [issue]);
    else group.push(issue);
  }
  return [...groups].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, group]) => group);
}
