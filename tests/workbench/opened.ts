import { mkdtempSync, writeFileSync } from "node:fs";
import { readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { unzipSync } from "fflate";
import type { Browser, BrowserContextOptions, Download, Page } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { workbenchPage } from "../../src/workbench/build/page.tsx";
import { launchChromium } from "../browser/chromium.ts";

export const ROOT = resolve(import.meta.dirname, "../..");

/** The page as it is built from the sources of today, on disk, and a browser that can reach nothing else. */
export interface Bench {
  /** A new tab with the page, its own storage and no network. */
  open(options?: BrowserContextOptions & { readonly before?: string }): Promise<Opened>;
  /** The page's text. */
  text(): string;
}

export interface Opened {
  readonly page: Page;
  /** Everything that the page asked for, itself included. */
  readonly requests: string[];
  /** What it said on the console, and errors that nobody caught. */
  readonly complaints: string[];
}

/** Builds the page once for the test file, and closes the browser after it. */
export function benchForTests(): Bench {
  const folder = mkdtempSync(join(tmpdir(), "fourfold-bench-"));
  const file = join(folder, "workbench.html");
  let browser: Browser;
  let text: string;
  beforeAll(async () => {
    text = await workbenchPage(ROOT);
    writeFileSync(file, text);
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await rm(folder, { recursive: true, force: true });
  });
  return {
    text: () => text,
    async open({ before, ...options } = {}) {
      const context = await browser.newContext({ offline: true, acceptDownloads: true, ...options });
      const page = await context.newPage();
      const requests: string[] = [];
      const complaints: string[] = [];
      page.on("request", (request) => requests.push(request.url()));
      page.on("console", (message) => complaints.push(message.text()));
      page.on("pageerror", (error) => complaints.push(String(error)));
      if (before !== undefined) await page.addInitScript(before);
      await page.goto(pathToFileURL(file).href);
      await page.locator("#workbench:not([inert])").waitFor({ state: "attached" });
      return { page, requests, complaints };
    },
  };
}

/** Goes to a part of the workbench. */
export function show(page: Page, part: string): Promise<void> {
  return page
    .getByRole("navigation")
    .getByRole("button", { name: new RegExp(`^${part}`) })
    .click();
}

/** Waits until the report of the open study stands. */
export async function reportStands(page: Page): Promise<void> {
  await page.locator(".view-report #answer").waitFor({ timeout: 60_000 });
  await page.locator(".task progress").waitFor({ state: "detached", timeout: 60_000 });
}

/** Chooses a folder of the package as the study. */
export async function openFolder(page: Page, folder: string): Promise<void> {
  await page.locator(".view-study").getByLabel("Choose a folder").setInputFiles(join(ROOT, folder));
}

/** What a button of the part "Save" hands over. */
export async function saved(page: Page, button: string): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 60_000 }),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  return contentOf(download);
}

async function contentOf(download: Download): Promise<Buffer> {
  return readFile(await download.path());
}

/** The files of an archive, by name. */
export function entriesOf(archive: Buffer): Record<string, Buffer> {
  const entries = Object.entries(unzipSync(archive));
  return Object.fromEntries(entries.map(([name, bytes]) => [name, Buffer.from(bytes)]));
}
