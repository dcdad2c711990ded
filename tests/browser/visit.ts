import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** A page that was opened, what it asked for and what it complained of. */
export interface Visit {
  readonly page: Page;
  readonly requests: string[];
  readonly complaints: string[];
}

/** Opens a page from its text. */
export async function visit(
  browser: Browser,
  html: string,
  options: Parameters<Browser["newPage"]>[0] = {},
): Promise<Visit> {
  const page = await browser.newPage(options);
  const requests: string[] = [];
  const complaints: string[] = [];
  page.on("request", (request) => requests.push(request.url()));
  page.on("console", (message) => complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("dialog", (dialog) => {
    complaints.push(dialog.message());
    void dialog.dismiss();
  });
  await page.setContent(html);
  return { page, requests, complaints };
}

/** What axe-core finds, by rule and place. Its script is put in from outside the page's own policy. */
export async function violations(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  await session.send("Runtime.evaluate", { expression: AXE });
  const found = await session.send("Runtime.evaluate", {
    expression:
      "axe.run(document).then((r) => JSON.stringify(r.violations.map((v) => [v.id, ...v.nodes.slice(0, 3).map((n) => n.target.join(' ') + ' ' + n.failureSummary)])))",
    awaitPromise: true,
    returnByValue: true,
  });
  return (JSON.parse(String(found.result.value)) as string[][]).map((one) => one.join(" | "));
}
