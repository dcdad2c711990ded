import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { launchChromium } from "../tests/browser/chromium.ts";

/** Takes the picture of the demo report's first page that the README shows. Run by `npm run reports`. */
const browser = await launchChromium();
const page = await browser.newPage({ viewport: { width: 1120, height: 1420 }, deviceScaleFactor: 1.5 });
await page.goto(pathToFileURL(join(import.meta.dirname, "demo", "report.html")).href);
await page.screenshot({ path: join(import.meta.dirname, "first-page.png") });
await browser.close();
