import { join, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { DONE } from "../io.ts";
import { progressOn } from "../progress.ts";
import { shownPath } from "../shown-path.ts";

const STANDARD_OUT = "fourfold-algorithm";

/** From a file of testing algorithms to its page. */
export const algorithm: CliCommand = {
  declare: (program) =>
    program
      .command("algorithm")
      .summary("tell what testing algorithms do with people, kits and money")
      .description(
        `Reads an algorithm file and writes a folder with algorithm.html, algorithm.json, the tables as CSV and the charts as specifications. An earlier page of the same place is replaced as a whole. Without --out it goes to ${STANDARD_OUT} beside the file. How far the kits are wrong about the same people must be stated: independence is never assumed.`,
      )
      .argument("<file>", "the algorithm file, or a folder with algorithm.yaml")
      .option("--out <folder>", "the folder to write")
      .option("--json", "print the answer as JSON"),
  example: "fourfold start my-algorithm --algorithm\nfourfold algorithm my-algorithm",
  async run(io, [typed], options) {
    const { evaluateAlgorithmFile, findAlgorithm } = await import("../algorithm-file.ts");
    const place = await findAlgorithm(io, typed as string);
    const out =
      typeof options.out === "string" ? resolve(io.folder, options.out) : join(place.folder, STANDARD_OUT);
    const { refuseForeign } = await import("../report-folder.ts");
    const { ALGORITHM_OURS, ALGORITHM_PAGE, writeAlgorithmFolder } = await import("../algorithm-folder.ts");
    await refuseForeign(io, out, ALGORITHM_OURS);
    const progress = progressOn(io);
    const algorithms = await evaluateAlgorithmFile(place, progress);
    await writeAlgorithmFolder(out, algorithms, progress);
    const page = shownPath(io, join(out, ALGORITHM_PAGE));
    if (options.json) {
      const { answer, notes } = algorithms;
      io.out(`${JSON.stringify({ page, answer, notes }, null, 2)}\n`);
      return DONE;
    }
    const { algorithmHeadline } = await import("../algorithm-headline.ts");
    io.out(`${algorithmHeadline(algorithms)}page: ${page}\n`);
    return DONE;
  },
};
