import { pack, unpack } from "./archive.ts";
import { computeMethod } from "./compute-method.ts";
import { demoStudy } from "./demo-study.ts";
import { drawPage } from "./draw-page.ts";
import { evaluateStudy } from "./evaluate-study.ts";
import { pageFolder } from "./page-folder.ts";
import { reportFolder } from "./report-folder.ts";
import { squeeze, unsqueeze } from "./squeeze.ts";

/**
 * Everything that the page asks of the worker, by name. A job takes plain data and a `Tell`, gives plain data
 * (what passes `structuredClone`), and touches no page: it runs in the page too, where there is no worker.
 */
export const jobs = {
  computeMethod,
  demoStudy,
  drawPage,
  evaluateStudy,
  pack,
  pageFolder,
  reportFolder,
  squeeze,
  unpack,
  unsqueeze,
};

export type Jobs = typeof jobs;
export type JobName = keyof Jobs;
export type Ask<Name extends JobName> = Parameters<Jobs[Name]>[0];
export type Give<Name extends JobName> = Awaited<ReturnType<Jobs[Name]>>;
