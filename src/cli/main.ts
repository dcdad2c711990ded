#!/usr/bin/env node
import { fileURLToPath } from "node:url";
import type { Io } from "./io.ts";
import { runCommandLine } from "./run.ts";

/** The one place that prints, reads standard input and sets the exit code. */
const io: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  colour: wantsColour(),
  folder: process.cwd(),
  home: fileURLToPath(new URL("../../", import.meta.url)),
  async input() {
    const pieces: Buffer[] = [];
    for await (const piece of process.stdin) pieces.push(piece as Buffer);
    return Buffer.concat(pieces);
  },
  now: () => performance.now(),
};

/** Colour on a terminal only, and never against NO_COLOR (no-color.org). */
function wantsColour(): boolean {
  return process.stdout.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== "dumb";
}

/** The reader of a pipe may leave early (`fourfold methods | head`): that is no fault. */
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

/** The code is set and not forced, so that everything written still reaches the pipe. */
process.exitCode = await runCommandLine(process.argv.slice(2), io);
