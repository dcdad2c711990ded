import { join, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { DONE } from "../io.ts";
import { progressOn } from "../progress.ts";
import { refuseOccupied } from "../refuse-occupied.ts";
import { shownPath } from "../shown-path.ts";

const STANDARD_OUT = "fourfold-plan";

/** From a plan file to its page, and to a study folder with the criteria already in it. */
export const plan: CliCommand = {
  declare: (program) =>
    program
      .command("plan")
      .summary("tell how many people a planned study needs")
      .description(
        `Reads a plan file and writes a folder with plan.html, planning.json, the tables as CSV and the charts as specifications. An earlier page of the same place is replaced as a whole. Without --out it goes to ${STANDARD_OUT} beside the plan file. With --study it also makes a study folder, to be filled in.`,
      )
      .argument("<file>", "the plan file, or a folder with plan.yaml")
      .option("--out <folder>", "the folder to write")
      .option("--study <folder>", "the study folder to make; nothing may stand there")
      .option("--json", "print the answer as JSON"),
  example: "fourfold plan my-plan.yaml\nfourfold plan my-plan.yaml --study my-study",
  async run(io, [typed], options) {
    const { findPlan, evaluatePlanFile } = await import("../plan-file.ts");
    const place = await findPlan(io, typed as string);
    const out =
      typeof options.out === "string" ? resolve(io.folder, options.out) : join(place.folder, STANDARD_OUT);
    const study = typeof options.study === "string" ? resolve(io.folder, options.study) : null;
    const { refuseForeign } = await import("../report-folder.ts");
    const { PLAN_OURS, PLAN_PAGE, writePlanFolder, writeStudyFolder } = await import("../plan-folder.ts");
    await refuseForeign(io, out, PLAN_OURS);
    if (study !== null) await refuseOccupied(study, options.study as string);
    const progress = progressOn(io);
    const evaluated = await evaluatePlanFile(place, progress);
    await writePlanFolder(out, evaluated.planning, progress);
    if (study !== null) await writeStudyFolder(io, study, evaluated);
    const page = shownPath(io, join(out, PLAN_PAGE));
    const made = study === null ? null : shownPath(io, study);
    if (options.json) {
      const { answer, notes } = evaluated.planning;
      io.out(`${JSON.stringify({ plan: page, study: made, answer, notes }, null, 2)}\n`);
      return DONE;
    }
    const { planHeadline } = await import("../plan-headline.ts");
    io.out(`${planHeadline(evaluated.planning)}plan: ${page}\n`);
    if (made !== null) io.out(`study folder to fill in: ${made}; then \`fourfold check ${made}\`\n`);
    return DONE;
  },
};
