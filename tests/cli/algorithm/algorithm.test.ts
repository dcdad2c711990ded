import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import { readAlgorithms } from "../../../src/evaluation/algorithm/read.ts";
import {
  type AlgorithmText,
  algorithmText,
  channelText,
  kitText,
} from "../../evaluation/algorithm/any-algorithm.ts";
import { fill, ownFolder, ROOT, run } from "../in-process.ts";

const folder = ownFolder();
const read = (...parts: string[]) => readFile(join(folder, ...parts), "utf8");

async function fileIn(name: string, change: AlgorithmText = {}, file = "algorithm.yaml"): Promise<string> {
  await fill(join(folder, name), { [file]: stringify(algorithmText(change)) });
  return join(name, file);
}

const [BOTH] = algorithmText().algorithms as [AlgorithmText];

describe("algorithm", () => {
  it("writes page, document, tables and charts beside the file, and says first what dependence does", async () => {
    const { code, out } = await run(["algorithm", await fileIn("plain", {}, "mine.yaml")], folder);
    expect(code).toBe(0);
    const [first, second] = out.split("\n");
    expect(first).toBe("Analyte one, A clinic: K, then L");
    // By hand, in the test of the evaluation: 99.23 % independent, 95.63 % with an error correlation of 0.1.
    expect(second).toContain(
      "if the kits' errors were independent 99.23 % of positives would be right; with the dependence stated 95.63 %",
    );
    expect(out).toContain(`page: ${join("plain", "fourfold-algorithm", "algorithm.html")}`);
    const names = (await readdir(join(folder, "plain", "fourfold-algorithm"))).sort();
    expect(names).toEqual(["algorithm.html", "algorithm.json", "figures", "tables"]);
    const document = readAlgorithms(JSON.parse(await read("plain", "fourfold-algorithm", "algorithm.json")));
    expect(document.provenance.inputs.map(({ name }) => name)).toEqual(["mine.yaml"]);
    expect(document.provenance.methods.map(({ id }) => id)).toContain("algorithms.outcomes");
    expect(await read("plain", "fourfold-algorithm", "tables", "outcomes.csv")).toContain(
      "clinic,both,A1,0.05",
    );
    const figures = await readdir(join(folder, "plain", "fourfold-algorithm", "figures"));
    expect(figures.length).toBeGreaterThan(0);
    for (const name of figures) expect(name).toMatch(/\.vl\.json$/);
  });

  it("takes a folder with algorithm.yaml, writes where asked, and the same bytes again", async () => {
    await fileIn("again", { kits: [kitText("K", 0.99, 0.98), uncertain("L")] });
    const first = await run(["algorithm", "again", "--out", "out-again", "--json"], folder);
    const [page, document] = [
      await read("out-again", "algorithm.html"),
      await read("out-again", "algorithm.json"),
    ];
    const second = await run(["algorithm", "again", "--out", "out-again", "--json"], folder);
    expect([first.code, second.code]).toEqual([0, 0]);
    expect(await read("out-again", "algorithm.html")).toBe(page);
    expect(await read("out-again", "algorithm.json")).toBe(document);
    const answer = JSON.parse(first.out);
    expect(answer).toMatchObject({ page: join("out-again", "algorithm.html"), answer: { target: null } });
    expect(answer.answer.lines[0].ppv.lower).toBeLessThan(answer.answer.lines[0].ppv.value);
    expect(page).not.toContain(folder);
  });

  it("names the best where, and says so where there is none", async () => {
    const channels = [channelText(0.05), channelText(0.0005, { id: "rare", title: "Where it is rare" })];
    const { out } = await run(
      ["algorithm", await fileIn("best", { channels, targets: { ppv: 0.95 } })],
      folder,
    );
    expect(out).toMatch(/^ {2}95\.00 % asked: reached with probability 1\.00$/m);
    expect(out).toMatch(
      /^Analyte one, A clinic: both is the cheapest that reaches the targets at 1\.07 a client/m,
    );
    expect(out).toMatch(/^Analyte one, Where it is rare: no algorithm reaches the targets/m);
    expect(out).toMatch(/^order for a year: Kit K: 2,000 kits, 2,000 packs$/m);
  });

  it("rounds nothing to certainty", async () => {
    const kits = [kitText("K", 0.999, 0.99999), kitText("L", 0.999, 0.99999)];
    const dependence = { kind: "pairs", others: { positive: 0, negative: 0 } };
    const { out } = await run(["algorithm", await fileIn("sure", { kits, dependence })], folder);
    expect(out).toContain("  over 99.99 % of positives are right (over 99.99 % to over 99.99 %)");
  });

  it("says so where independence was named, and where nobody is tested twice", async () => {
    const named = await run(
      ["algorithm", await fileIn("named", { dependence: { kind: "independent" } })],
      folder,
    );
    expect(named.out).toMatch(/99\.23 % of positives are right .*, the kits' errors taken as independent$/m);
    const [, one] = algorithmText().algorithms as [AlgorithmText, AlgorithmText];
    const alone = await run(
      ["algorithm", await fileIn("alone", { dependence: undefined, algorithms: [one] })],
      folder,
    );
    expect(alone.out).toMatch(/^ {2}72\.26 % of positives are right \(72\.26 % to 72\.26 %\)$/m);
  });

  it.each<[string, string[], 1 | 2, RegExp]>([
    ["no such file", ["algorithm", "nowhere.yaml"], 2, /no such file: nowhere\.yaml/],
    ["no algorithm file in the folder", ["algorithm", "empty"], 1, /no algorithm\.yaml in/],
    [
      "a file with faults, each with its line",
      ["algorithm", "faulty"],
      1,
      /algorithm\.yaml: row \d+, column dependence: expected how far kits are wrong .* algorithm both may run K and L/,
    ],
    [
      "a circle",
      ["algorithm", "circle"],
      1,
      /row \d+, column algorithms\.0\.steps\.0\.invalid: expected a way on from step a .* received "a"/,
    ],
    [
      "a place that holds something else",
      ["algorithm", "sound", "--out", "foreign"],
      2,
      /foreign: holds precious\.txt/,
    ],
  ])("refuses %s", async (_, words, code, message) => {
    await fill(join(folder, "empty"), { "other.txt": "x" });
    await fill(join(folder, "foreign"), { "precious.txt": "x" });
    await fileIn("faulty", { dependence: undefined });
    const steps = [{ id: "a", kit: "K", reactive: "positive", nonreactive: "negative", invalid: "a" }];
    await fileIn("circle", { algorithms: [{ ...BOTH, preset: undefined, kits: undefined, steps }] });
    await fileIn("sound");
    const ran = await run(words, folder);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(message);
    expect(await read("foreign", "precious.txt")).toBe("x");
  });
});

/** A kit of which counts are known. */
const uncertain = (id: string) =>
  kitText(id, 0.99, 0.98, {
    analytes: { A1: { sensitivity: { right: 99, total: 100 }, specificity: { right: 196, total: 200 } } },
  });

describe("start --algorithm", () => {
  it("makes a file that can be evaluated as it stands", async () => {
    const made = await run(["start", "mine", "--algorithm"], folder);
    expect(made.code).toBe(0);
    expect(made.out).toContain("fourfold algorithm mine");
    const { code, out } = await run(["algorithm", "mine", "--json"], folder);
    expect(code).toBe(0);
    const { answer } = JSON.parse(out);
    expect(answer.best[0]).toMatchObject({ channel: "antenatal", cheapest: "x-then-y" });
    expect((await run(["start", "mine", "--algorithm"], folder)).code).toBe(2);
    expect((await run(["start", "other", "--algorithm", "--plan"], folder)).code).toBe(2);
  }, 20_000);

  it("shows every part of a file: the remarks read as fields too", async () => {
    const text = await readFile(join(ROOT, "data", "template-algorithm", "algorithm.yaml"), "utf8");
    const shown = text
      .replace(/^ {4}- \{ kits: \[X, Y\], .*\n/m, "")
      .replaceAll(/^( {2,})# (?=- (?:id|kits):| {2}\S| {4}- \{| {4}\w+:|per_)/gm, "$1")
      .replaceAll(/^# (?=observed:| {2}- \{ channel)/gm, "")
      .replace("draws: 10000", "draws: 1000");
    await fill(join(folder, "whole"), { "algorithm.yaml": shown });
    const { code, err } = await run(["algorithm", "whole"], folder);
    expect(err).not.toMatch(/expected/);
    expect(code).toBe(0);
    const { file, dependence, observed } = readAlgorithms(
      JSON.parse(await read("whole", "fourfold-algorithm", "algorithm.json")),
    );
    expect(file.algorithms.map(({ id }) => id)).toEqual(["x-then-y", "x-alone", "my-own"]);
    expect(file.costs).toMatchObject({ per_false_positive: 40, per_missed: 90 });
    expect(dependence.pairs.find(({ first, second }) => first === "X" && second === "Y")?.source).toBe(
      "estimated",
    );
    expect(observed).toHaveLength(1);
  }, 20_000);
});

describe("verify, of a page of algorithms", () => {
  const page = join("verified", "fourfold-algorithm", "algorithm.html");

  it("finds page, inputs and numbers unchanged, then the file changed", async () => {
    await run(["algorithm", await fileIn("verified")], folder);
    const same = await run(["verify", page, "--json"], folder);
    expect(same.code).toBe(0);
    expect(same.err).toContain("algorithm folder: verified");
    expect(JSON.parse(same.out)).toMatchObject({
      holds: true,
      page: "same",
      inputs: [{ file: "algorithm.yaml", state: "unchanged" }],
      numbers: [],
    });
    await fileIn("verified", { channels: [channelText(0.06)] });
    const changed = await run(["verify", page], folder);
    expect(changed.code).toBe(1);
    expect(changed.out).toContain("algorithm.yaml: changed");
    expect(changed.out).toMatch(/prevalence: 0\.05 in the report, 0\.06 now/);
  });

  it("notices a page that was changed, alone and in its document", async () => {
    await run(["algorithm", await fileIn("forged"), "--out", "forged-out"], folder);
    const whole = await read("forged-out", "algorithm.html");
    const forged = async (text: string) => {
      await writeFile(join(folder, "forged-out", "forged.html"), text);
      return run(["verify", join("forged-out", "forged.html"), "--study", "forged"], folder);
    };
    const words = await forged(whole.replace("Two kits", "Two very good kits"));
    expect(words.code).toBe(1);
    expect(words.out).toContain("the page is NOT what its numbers give");
    const broken = await forged(whole.replace('"format":"fourfold-algorithms"', '"format":"fourfold-other"'));
    expect(broken.code).toBe(1);
    expect(broken.err).toContain("not a page of algorithms that can be read back");
  });
});
