import { isWorkingDay, STUDY_DAYS } from "./calendar.ts";
import { type Draws, drawsOf } from "./draws.ts";
import {
  ASSOCIATION,
  CROSS_REACTION,
  type Plan,
  PREVALENCE,
  SIGNAL,
  SITES,
  type Site,
  SPECIAL_FALSE_POSITIVE,
} from "./scenario.ts";
import type { ByAnalyte, ByLine, LineId, LineSource, Person } from "./world.ts";

const AGE_BANDS = { "15-24": 24, "25-34": 33, "35-44": 21, "45-59": 15, "60+": 7 };
const CHILDBEARING = new Set(["15-24", "25-34", "35-44"]);

/** Everyone who is enrolled, site by site, in the order of enrolment. */
export function enrolPeople(seed: number, { sizes, secondEnrolments }: Plan): Person[] {
  const draws = drawsOf(seed, "people");
  const workingDays = Array.from({ length: STUDY_DAYS }, (_, day) => day).filter(isWorkingDay);
  const people = SITES.flatMap((site) => {
    const days = Array.from({ length: sizes[site.id] }, () => draws.pick(workingDays)).sort((a, b) => a - b);
    return days.map((day, index) =>
      newPerson(draws, site, `${site.id}-${String(index + 1).padStart(4, "0")}`, day),
    );
  });
  return enrolSomeTwice(people, secondEnrolments, drawsOf(seed, "second enrolments"));
}

function newPerson(draws: Draws, site: Site, id: string, day: number): Person {
  const sex = draws.chance(site.arm === "A" ? 0.62 : 0.38) ? "female" : "male";
  const ageBand = draws.weighted(AGE_BANDS);
  const mayBePregnant = sex === "female" && CHILDBEARING.has(ageBand);
  const expecting = mayBePregnant && draws.chance(site.arm === "A" ? 0.5 : 0.05);
  const pregnant = sex === "male" ? "na" : expecting ? "yes" : "no";
  const has = drawConditions(draws, PREVALENCE[site.arm]);
  return {
    id,
    site: site.id,
    arm: site.arm,
    day,
    ageBand,
    sex,
    pregnant,
    reason: reasonOf(draws, site, expecting),
    key: `k${draws.whole(0x10000000, 0xfffffff0).toString(16)}`,
    has,
    source: drawSources(draws, has, expecting),
    alreadyEnrolledAs: null,
  };
}

function reasonOf(draws: Draws, site: Site, expecting: boolean): string {
  if (site.id === "K") return "outreach";
  if (site.id === "L") return "liver_clinic";
  if (expecting) return "antenatal";
  return draws.chance(0.25) ? "blood_exposure" : "outpatient";
}

/** Both conditions at once, with the margins asked for and the odds ratio between them. */
function drawConditions(draws: Draws, prevalence: ByAnalyte<number>): ByAnalyte<boolean> {
  const both = jointProbability(prevalence.hbsag, prevalence.anti_hcv, ASSOCIATION);
  const point = draws.uniform(0, 1);
  const hbsag = point < prevalence.hbsag;
  const onlySecond = point < prevalence.hbsag + prevalence.anti_hcv - both;
  return { hbsag, anti_hcv: hbsag ? point < both : onlySecond };
}

/** P(both) of two yes-no variables from their margins and odds ratio: the smaller root of its quadratic. */
export function jointProbability(first: number, second: number, oddsRatio: number): number {
  const sum = 1 + (first + second) * (oddsRatio - 1);
  const root = Math.sqrt(sum * sum - 4 * oddsRatio * (oddsRatio - 1) * first * second);
  return (sum - root) / (2 * (oddsRatio - 1));
}

function drawSources(draws: Draws, has: ByAnalyte<boolean>, pregnant: boolean): ByLine<LineSource> {
  const T1 = drawSource(draws, "T1", has.hbsag, pregnant);
  const T2 = drawSource(draws, "T2", has.anti_hcv, pregnant);
  const strong = T1.kind === "condition" && T1.strength > CROSS_REACTION.strongFrom;
  const crosses = strong && T2.kind === "none" && draws.chance(CROSS_REACTION.share);
  if (!crosses) return { T1, T2 };
  const strength = draws.normal(CROSS_REACTION.mean, CROSS_REACTION.deviation);
  return { T1, T2: { kind: "cross_reaction", strength } };
}

function drawSource(draws: Draws, line: LineId, has: boolean, pregnant: boolean): LineSource {
  if (has) return { kind: "condition", strength: draws.normal(SIGNAL[line].mean, SIGNAL[line].person) };
  const special = SPECIAL_FALSE_POSITIVE[line];
  if (!draws.chance(pregnant ? special.pregnantShare : special.share)) return { kind: "none" };
  return { kind: "special", strength: draws.normal(special.mean, special.deviation) };
}

/** Planted: a few people come back later and are enrolled again, under a new code. */
function enrolSomeTwice(people: readonly Person[], count: number, draws: Draws): Person[] {
  const later = draws.sample(
    people.filter((person) => person.site === "B" && person.day > 90),
    count,
  );
  const earlier = draws.sample(
    people.filter((person) => person.site === "B" && person.day < 60),
    count,
  );
  return people.map((person) => {
    const first = earlier[later.indexOf(person)];
    if (first === undefined) return person;
    return { ...first, id: person.id, day: person.day, alreadyEnrolledAs: first };
  });
}
