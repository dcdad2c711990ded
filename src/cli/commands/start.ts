import { readdir, readFile } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { type NewFile, writeFolderWhole } from "../files.ts";
import { DONE } from "../io.ts";
import { refuseOccupied } from "../refuse-occupied.ts";
import { shownPath } from "../shown-path.ts";

/** Copies the template of a study folder to a place of the user's. */
export const start: CliCommand = {
  declare: (program) =>
    program
      .command("start")
      .summary("make a study folder to fill in")
      .description(
        "Makes a folder with a study file, a kit file and empty tables, ready to be filled in. Refuses a folder that already holds something.",
      )
      .argument("<folder>", "the folder to make"),
  example: "fourfold start my-study",
  async run(io, [typed]) {
    const folder = resolve(io.folder, typed as string);
    await refuseOccupied(folder, typed as string);
    await writeFolderWhole(folder, await filesBelow(join(io.home, "data", "template")));
    const shown = shownPath(io, folder);
    io.out(`${shown}: a study folder to fill in\n`);
    io.out(`Describe the study in ${join(shown, "study.yaml")}, fill the tables, then:\n`);
    io.out(`  fourfold check ${shown}\n`);
    return DONE;
  },
};

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
