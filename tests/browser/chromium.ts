import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { type Browser, chromium } from "playwright-core";

const NAMES = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome"];

/** Where Chromium is: the environment variable CHROMIUM, else the first known name on the path. */
export function chromiumPath(): string | null {
  const named = process.env.CHROMIUM;
  if (named !== undefined && existsSync(named)) return named;
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    const found = NAMES.map((name) => join(folder, name)).find((path) => existsSync(path));
    if (found !== undefined) return found;
  }
  return null;
}

/** A browser for the tests, without its own background traffic. */
export function launchChromium(): Promise<Browser> {
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error("no Chromium: run `npm test`, which installs it");
  return chromium.launch({
    executablePath,
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
  });
}
