import { spawn } from "node:child_process";
import { copyFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import type { CliCommand } from "../command.ts";
import { standsAt } from "../files.ts";
import { DONE, failed, type Io, wrongUsage } from "../io.ts";
import { shownPath } from "../shown-path.ts";

/** The report, live, in the user's own browser: one HTML file that needs no server and no network. */
export const workbench: CliCommand = {
  declare: (program) =>
    program
      .command("workbench")
      .summary("open the workbench in your browser")
      .description(
        "Opens the workbench: one HTML file in which a study's report is alive. It runs in your browser, from disk, without a server or a network; a double click on the file does the same.",
      )
      .option("--copy <file>", "write the page to this file instead of opening it")
      .option("--print", "print where the page is instead of opening it"),
  example: "fourfold workbench\nfourfold workbench --copy workbench.html",
  async run(io, _given, options) {
    const page = join(io.home, "dist", "workbench.html");
    if ((await standsAt(page)) === null) {
      throw failed("the page has not been built; `npm run build` in Fourfold's folder makes it");
    }
    if (typeof options.copy === "string") {
      await copy(io, page, options.copy);
    } else if (options.print === true) {
      io.out(`${page}\n`);
    } else {
      openInBrowser(page);
      io.out(`workbench: ${page}\n`);
    }
    return DONE;
  },
};

async function copy(io: Io, page: string, typed: string): Promise<void> {
  const target = resolve(io.folder, typed);
  if ((await standsAt(target)) !== null) throw wrongUsage(`${typed}: there is something of that name`);
  await copyFile(page, target);
  io.out(`workbench: ${shownPath(io, target)}\n`);
}

/** What opens a file as a double click would, by system. */
const OPENERS: Readonly<Record<string, readonly string[]>> = {
  darwin: ["open"],
  win32: ["cmd", "/c", "start", ""],
};

/** The path is printed as well: where nothing opens files, the user can. */
function openInBrowser(page: string): void {
  const [program, ...words] = OPENERS[process.platform] ?? ["xdg-open"];
  const opener = spawn(program as string, [...words, page], { detached: true, stdio: "ignore" });
  opener.on("error", () => {});
  opener.unref();
}
