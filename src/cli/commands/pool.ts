import { join, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { DONE } from "../io.ts";
import { progressOn } from "../progress.ts";
import { shownPath } from "../shown-path.ts";

const STANDARD_OUT = "fourfold-pool";

/** From a table of studies to the page of their pooling. */
export const pool: CliCommand = {
  declare: (program) =>
    program
      .command("pool")
      .summary("pool sensitivity and specificity over studies, and tell what a new place may see")
      .description(
        `Reads a pooling file and the table of counts that it names, and writes a folder with pool.html, pooling.json, the tables as CSV and the charts as specifications. An earlier page of the same place is replaced as a whole. Without --out it goes to ${STANDARD_OUT} beside the file. Rows that can't be used are left out, each named.`,
      )
      .argument("<file>", "the pooling file, or a folder with pool.yaml")
      .option("--out <folder>", "the folder to write")
      .option("--json", "print the answer as JSON"),
  example: "fourfold start my-pooling --pool\nfourfold pool my-pooling",
  async run(io, [typed], options) {
    const { evaluatePoolFile, findPool } = await import("../pool-file.ts");
    const place = await findPool(io, typed as string);
    const out =
      typeof options.out === "string" ? resolve(io.folder, options.out) : join(place.folder, STANDARD_OUT);
    const { refuseForeign } = await import("../report-folder.ts");
    const { POOL_OURS, POOL_PAGE, writePoolFolder } = await import("../pool-folder.ts");
    await refuseForeign(io, out, POOL_OURS);
    const progress = progressOn(io);
    const pooling = await evaluatePoolFile(place, progress);
    await writePoolFolder(out, pooling, progress);
    const page = shownPath(io, join(out, POOL_PAGE));
    if (options.json) {
      const { answer, leftOut, notes } = pooling;
      io.out(`${JSON.stringify({ page, answer, leftOut, notes }, null, 2)}\n`);
      return DONE;
    }
    const { poolHeadline } = await import("../pool-headline.ts");
    io.out(`${poolHeadline(pooling)}page: ${page}\n`);
    return DONE;
  },
};
