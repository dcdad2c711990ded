import { algorithmFiles } from "../../../report/algorithm/algorithm-files.ts";
import type { PageFile } from "../../../report/files-beside.ts";
import { planFiles } from "../../../report/plan/plan-files.ts";
import { drawnPage, type PageAsk } from "../drawn-page.ts";
import { type Tell, whole } from "../step.ts";

/**
 * The files of the folder of a plan or of testing algorithms, byte for byte as the command line writes them.
 * `null` where the file can't be read.
 */
export async function pageFolder(ask: PageAsk, tell: Tell): Promise<readonly PageFile[] | null> {
  const { page } = await drawnPage(ask, tell);
  if (page === null) return null;
  await tell(whole("writing"));
  return page.kind === "plan"
    ? planFiles(page.document, page.figures)
    : algorithmFiles(page.document, page.figures);
}
