import { execFile, spawn } from "node:child_process";
import { access, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { promisify } from "node:util";
import { writeBigStudy } from "./big-study.ts";
import type { BenchRow } from "./run.ts";

const ROOT = resolve(import.meta.dirname, "../..");
const MAIN = join(ROOT, "dist", "cli", "main.js");
/** Two readings a person, each of two lines: 100,000 readings in 200,000 rows. */
const PEOPLE = 50_000;

interface Run {
  readonly seconds: number;
  /** Largest memory held, in megabytes. */
  readonly megabytes: number;
}

/** The compiled command line from a cold start, held against the limits that users were promised. */
export async function benchReport(): Promise<BenchRow[]> {
  await access(MAIN).catch(() => {
    throw new Error("no compiled command line: run `npm run build` first");
  });
  const place = await mkdtemp(join(tmpdir(), "fourfold-bench-"));
  try {
    return [await help(), ...(await demoReport(place)), ...(await bigStudy(place))];
  } finally {
    await rm(place, { recursive: true, force: true });
  }
}

async function help(): Promise<BenchRow> {
  const { seconds } = await fastest(5, ["--help"]);
  return row("help from a cold start", seconds, 0.3, "s");
}

async function demoReport(place: string): Promise<BenchRow[]> {
  const whole = await fastest(3, ["demo", "--out", join(place, "demo")]);
  const drawn = await figuresOf(join(ROOT, "data", "demo"));
  return [
    row("demo report from a cold start", whole.seconds, 2.5, "s"),
    row("its figures, the library's loading included", drawn, 1, "s"),
  ];
}

/** Seconds for the charts alone, in a process of its own that has loaded everything else. */
async function figuresOf(study: string): Promise<number> {
  const code = `
    const { evaluateFolder } = await import(${JSON.stringify(join(ROOT, "dist/cli/read-folder.js"))});
    const quiet = { step() {}, end() {} };
    const { evaluation } = await evaluateFolder(${JSON.stringify(study)}, quiet);
    const start = performance.now();
    const { renderFigures } = await import(${JSON.stringify(join(ROOT, "dist/report/render-report.js"))});
    await renderFigures(evaluation);
    console.log((performance.now() - start) / 1000);`;
  const { stdout } = await promisify(execFile)(process.execPath, ["--input-type=module", "-e", code]);
  return Number(stdout);
}

async function bigStudy(place: string): Promise<BenchRow[]> {
  const study = join(place, "big");
  await writeBigStudy(study, PEOPLE);
  const checked = await fastest(2, ["check", study]);
  const reported = await fastest(2, ["report", study, "--out", join(place, "report")]);
  const readings = "100,000 readings (400,000 rows in all)";
  return [
    row(`${readings} checked`, checked.seconds, 6, "s"),
    row(`${readings} checked, evaluated, reported`, reported.seconds, 6, "s"),
    row(`memory of that`, reported.megabytes, 500, "MB"),
  ];
}

function row(name: string, measured: number, limit: number, unit: string): BenchRow {
  const detail = `${measured.toFixed(2)} ${unit} of ${limit} ${unit}`;
  return { name, ratio: measured / limit, bar: 1, detail };
}

async function fastest(times: number, words: readonly string[]): Promise<Run> {
  let best: Run = { seconds: Number.POSITIVE_INFINITY, megabytes: Number.POSITIVE_INFINITY };
  for (let time = 0; time < times; time += 1) {
    const run = await once(words);
    if (run.seconds < best.seconds) best = run;
  }
  return best;
}

/** One run in a process of its own. It tells its memory itself, at the end, on a pipe of its own. */
function once(words: readonly string[]): Promise<Run> {
  const tell = `process.on("exit", () => require("node:fs").writeSync(3, String(process.resourceUsage().maxRSS)));`;
  const preload = `data:text/javascript,${encodeURIComponent(`import { createRequire } from "node:module"; const require = createRequire("/"); ${tell}`)}`;
  return new Promise((done, refuse) => {
    const start = performance.now();
    const child = spawn(process.execPath, ["--import", preload, MAIN, ...words], {
      stdio: ["ignore", "ignore", "pipe", "pipe"],
    });
    let kilobytes = "";
    let told = "";
    child.stdio[3]?.on("data", (piece: Buffer) => {
      kilobytes += piece.toString();
    });
    child.stderr?.on("data", (piece: Buffer) => {
      told += piece.toString();
    });
    child.on("error", refuse);
    child.on("close", (code) => {
      if (code === 0)
        done({ seconds: (performance.now() - start) / 1000, megabytes: Number(kilobytes) / 1024 });
      else refuse(new Error(`fourfold ${words.join(" ")} ended with ${code}: ${told}`));
    });
  });
}
