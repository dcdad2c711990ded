import { readdir, readFile } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import { ALGORITHM_FILE } from "../../records/algorithm/algorithm-file.ts";
import { PLAN_FILE } from "../../records/plan/plan-file.ts";
import { POOL_FILE } from "../../records/pool/pool-file.ts";
import type { CliCommand } from "../command.ts";
import { type NewFile, writeFolderWhole } from "../files.ts";
import { DONE, type Io, wrongUsage } from "../io.ts";
import { refuseOccupied } from "../refuse-occupied.ts";
import { shownPath } from "../shown-path.ts";

/** Copies the template of a study folder to a place of the user's. */
export const start: CliCommand = {
  declare: (program) =>
    program
      .command("start")
      .summary("make a study folder to fill in")
      .description(
        "Makes a folder with a study file, a kit file and empty tables, ready to be filled in. With --plan: a folder with a plan file to fill in instead; with --algorithm: one with an algorithm file; with --pool: one with a table of studies to pool. Refuses a folder that already holds something.",
      )
      .argument("<folder>", "the folder to make")
      .option("--plan", "a plan instead: how many people does the study need")
      .option("--algorithm", "testing algorithms instead: which tests, in which order, for whom")
      .option("--pool", "a table of studies instead: what do they say together"),
  example:
    "fourfold start my-study\nfourfold start my-plan --plan\nfourfold start my-algorithm --algorithm\nfourfold start my-pooling --pool",
  async run(io, [typed], options) {
    const folder = resolve(io.folder, typed as string);
    await refuseOccupied(folder, typed as string);
    const shown = shownPath(io, folder);
    const named = ["plan", "algorithm", "pool"].filter((name) => options[name] === true);
    if (named.length > 1) {
      throw wrongUsage(`${named.map((name) => `--${name}`).join(" and ")}: one of them, please`);
    }
    if (options.pool === true) {
      await writeFolderWhole(folder, await filesBelow(join(io.home, "data", "template-pool")));
      io.out(`${shown}: studies to fill in and pool\n`);
      io.out(`Describe the pooling in ${join(shown, POOL_FILE)}, fill its table, then:\n`);
      io.out(`  fourfold pool ${shown}\n`);
      return DONE;
    }
    if (options.algorithm === true) {
      await writeFolderWhole(folder, await filesBelow(join(io.home, "data", "template-algorithm")));
      io.out(`${shown}: testing algorithms to fill in\n`);
      io.out(`Describe kits, channels and algorithms in ${join(shown, ALGORITHM_FILE)}, then:\n`);
      io.out(`  fourfold algorithm ${shown}\n`);
      return DONE;
    }
    if (options.plan === true) {
      await writeFolderWhole(folder, await planTemplate(io));
      io.out(`${shown}: a plan to fill in\n`);
      io.out(`Describe the plan in ${join(shown, PLAN_FILE)}, then:\n`);
      io.out(`  fourfold plan ${shown}\n`);
      return DONE;
    }
    await writeFolderWhole(folder, await filesBelow(join(io.home, "data", "template")));
    io.out(`${shown}: a study folder to fill in\n`);
    io.out(`Describe the study in ${join(shown, "study.yaml")}, fill the tables, then:\n`);
    io.out(`  fourfold check ${shown}\n`);
    return DONE;
  },
};

/** The template of a plan, and the kit file that it shares with the template of a study. */
async function planTemplate(io: Io): Promise<NewFile[]> {
  const kit = await readFile(join(io.home, "data", "template", "kit.yaml"));
  return [...(await filesBelow(join(io.home, "data", "template-plan"))), { name: "kit.yaml", content: kit }];
}

async function filesBelow(folder: string): Promise<NewFile[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  return Promise.all(
    files.map(async (entry) => {
      const path = join(entry.parentPath, entry.name);
      return { name: relative(folder, path).replaceAll("\\", "/"), content: await readFile(path) };
    }),
  );
}
