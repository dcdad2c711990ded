import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type DemoFile, makeDemo } from "../src/demo/make-demo.ts";
import { makeCounts, makePartlyVerified, makeWide } from "../src/demo/make-small.ts";

/** Writes the invented studies again: `npm run demo:make`. A test compares them with what is committed. */
const { files, truth } = makeDemo();
const truthText = `${JSON.stringify(truth, null, 2)}\n`;

write("demo", [...files, { name: "truth.json", text: truthText }]);
write("wide", makeWide());
write("counts", makeCounts());
write("partly-verified", makePartlyVerified());

function write(folder: string, written: readonly DemoFile[]): void {
  const place = join(import.meta.dirname, folder);
  mkdirSync(place, { recursive: true });
  for (const { name, text } of written) writeFileSync(join(place, name), text);
}
