import { drawnPage, type PageAsk, type PageGiven } from "../drawn-page.ts";
import type { Tell } from "../step.ts";

/** What the page shows of a plan or of testing algorithms. */
export function drawPage(ask: PageAsk, tell: Tell): Promise<PageGiven> {
  return drawnPage(ask, tell);
}
