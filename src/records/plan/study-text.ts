import { stringify } from "yaml";
import { hasLines, type Kit } from "../kit.ts";
import { meanPrevalence } from "./check-plan-together.ts";
import { kitsOfPlan, type OtherKit, skeletonKit } from "./kits-of-plan.ts";
import type { Plan } from "./plan.ts";
import { LINE_RECORDS, resultRecords, resultsHeader } from "./study-records.ts";

/** A text file of a study folder. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/**
 * The study file that a plan gives, with everything that the plan fixed already in it, and a kit file for every
 * kit of which the plan has none. What a plan can't know stands there as an example, with a remark that says so.
 *
 * @param kit the kit of the plan as read; `null` where the plan names no kit file: then one is made to fill in
 */
export function studyFilesOf(plan: Plan, kit: Kit | null): TextFile[] {
  const { main, others } = kitsOfPlan(plan, kit);
  // A test without lines has results only; its records are one table.
  const lines = kit === null || hasLines(kit);
  const blocks = [
    ...aboutStudy(plan, others),
    ...aboutPeople(plan, lines),
    ...whatIsDemanded(plan, others),
    ...choices(plan, lines),
    block(REMARK_ON_TABLES, { records: lines ? LINE_RECORDS : resultRecords(plan, others) }),
  ];
  const skeletons = [...(kit === null ? [main] : []), ...others];
  return [
    { name: "study.yaml", text: `${blocks.join("\n")}` },
    ...(lines ? [] : [{ name: "results.csv", text: resultsHeader(plan, others) }]),
    ...skeletons.map((one) => ({ name: one.file, text: skeletonKit(plan, one) })),
  ];
}

const REMARK_ON_TABLES =
  "The tables, with a header and no rows yet. Leave out those that the study does not have.";
const TO_FILL = "TO BE FILLED IN:";

/** A field as YAML, its remark above it; short lists and mappings stay on one line where they are short. */
function block(remark: string, fields: Readonly<Record<string, unknown>>): string {
  const lines = remark === "" ? [] : remark.split("\n").map((line) => `# ${line}`);
  return `${[...lines, stringify(fields, { lineWidth: 100 }).trimEnd()].join("\n")}\n`;
}

function aboutStudy({ id, title, recruitment }: Plan, others: readonly OtherKit[]): string[] {
  const kits =
    others.length === 0 ? { kit: "kit.yaml" } : { kits: ["kit.yaml", ...others.map(({ file }) => file)] };
  const sites = recruitment.sites.map((site) => ({ id: site.id, title: site.title }));
  return [
    block(
      `The study as planned in ${id}. Made by \`fourfold plan\`; remarks marked ${TO_FILL.slice(0, -1)} name what a plan can't know.\nThen run \`fourfold check\` on this folder. \`fourfold start\` makes a folder that explains every field.`,
      { format: "fourfold-study/1", id, title },
    ),
    block("`locked` once the data are final.", { status: "draft" }),
    `# ${TO_FILL} version and registration of the protocol, first and last day of enrolment.\n# protocol: { version: "1.0", registration: number in a public register }\n# dates: { first: 2026-04-01, last: 2026-09-30 }\n`,
    block(
      others.length === 0 ? "" : "The main kit first. The kit files of the other kits are to be filled in.",
      kits,
    ),
    ...(sites.length === 0 ? [] : [block("", { sites })]),
  ];
}

function aboutPeople({ analytes, specimens }: Plan, lines: boolean): string[] {
  return [
    block(
      `${TO_FILL} how people come into the study: consecutive, random, convenience, enriched,\nknown_positive or known_negative.`,
      { arms: [{ id: "all", title: "Everybody enrolled", selection: "consecutive" }] },
    ),
    block(`${TO_FILL} how discrepant results are settled, and the reference algorithm of each analyte.`, {
      analytes: analytes.map(({ id, title, reference }) => ({
        id,
        title,
        reference: {
          title: reference ?? "to be filled in",
          role: "reference_standard",
          discrepancies: "to be filled in",
          ...(lines ? { algorithm: [exampleAssay(id)] } : {}),
        },
      })),
    }),
    block("", { specimens: specimens.map(({ type, title }) => ({ type, title })) }),
    block(`${TO_FILL} whose reading counts: primary (name the reader), consensus or each.`, {
      readers: { use: "primary", primary: lines ? "R1" : "recorded" },
    }),
  ];
}

function exampleAssay(analyte: string) {
  return { assay: `${analyte}-assay`, leads_to: { reactive: "positive", nonreactive: "negative" } };
}

function whatIsDemanded(plan: Plan, others: readonly OtherKit[]): string[] {
  const criteria = plan.criteria.map(({ expected: _expected, power: _power, ...criterion }) => criterion);
  const looks = plan.stopping.map(({ id, criterion, design }) => `${id} (${design}) for ${criterion}`);
  const remark =
    looks.length === 0
      ? "As planned."
      : `As planned. Looks before the end have no field here, and must be kept as the plan's page says: ${looks.join(", ")}.`;
  const comparisons = plan.comparisons.map((comparison) => ({
    id: comparison.id,
    title: comparison.title,
    analyte: comparison.analyte,
    first: {},
    second: { kit: others.find(({ title }) => title === comparison.second.title)?.id },
    ...(comparison.margin === undefined
      ? {}
      : {
          margin: comparison.margin,
          kind: "noninferiority",
          source: comparison.source ?? `plan ${plan.id}`,
        }),
  }));
  return [
    block(remark, { criteria }),
    block("", { decision: plan.decision }),
    ...(comparisons.length === 0 ? [] : [block("", { comparisons })]),
    block(
      `${TO_FILL} prevalences where the kit is meant to be used; those planned with are of the people enrolled.`,
      {
        prevalences: [
          {
            id: "planned",
            title: "As planned",
            values: Object.fromEntries(
              plan.analytes.map(({ id, prevalence }) => [
                id,
                Number(meanPrevalence(prevalence).toPrecision(4)),
              ]),
            ),
            source: `plan ${plan.id}`,
          },
        ],
      },
    ),
  ];
}

function choices({ recruitment, alike, interval, seed }: Plan, lines: boolean): string[] {
  const bySite = recruitment.sites.length > 0 || alike !== undefined;
  const table = lines ? { table: "participants" } : {};
  const site = { id: "site", title: "Site", ...table, column: "site_id", planned: true };
  return [
    ...(bySite ? [block("", { strata: [site], ...(alike === undefined ? {} : { cluster: "site" }) })] : []),
    block(
      `${TO_FILL} what an invalid result counts as (set_aside, failure, reactive, nonreactive), what readings\noutside the window do (keep, set_aside, invalid), which device counts after a repeat (first, last, any).`,
      { treatment: { invalid: "set_aside", outside_window: "keep", repeat: "last" } },
    ),
    block("", { interval }),
    block("", { seed }),
    `# ${TO_FILL} who pays, who supplies the kits, and what part they have.\n# funding: …\n`,
    block("", { deviations: [] }),
  ];
}
