import fc from "fast-check";
import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { Cassette } from "../../src/report/figures/cassette.tsx";
import { Forest } from "../../src/report/figures/forest.tsx";
import { FourfoldTable } from "../../src/report/figures/fourfold-table.tsx";
import { NaturalFrequencies, place } from "../../src/report/figures/natural-frequencies.tsx";
import { mostReactive, ReactiveBar } from "../../src/report/figures/reactive-bar.tsx";
import { ReferenceTree } from "../../src/report/figures/reference-tree.tsx";
import { standaloneSvg } from "../../src/report/figures/standalone.ts";
import { FIGURE_STYLES } from "../../src/report/figures/styles.ts";
import { layOutTree } from "../../src/report/figures/tree-layout.ts";
import { wholePeople } from "../../src/report/figures/whole-people.ts";
import { FIGURE_WORDS } from "../../src/report/figures/words.ts";
import { ALGORITHM, CROSS_TABULATION, KIT, LOOPED, NO_CROSS_TABULATION } from "./samples.ts";

describe("the fourfold table", () => {
  const cells = (markup: string) =>
    [...markup.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map((row) =>
      [...(row[1] ?? "").matchAll(/<td[^>]*>(?:<b>)?([\d,]+)/g)].map((cell) =>
        Number(cell[1]?.replaceAll(",", "")),
      ),
    );

  it("has margins that add up, in rows and in columns", () => {
    const rows = cells(
      renderToString(<FourfoldTable caption="people" crossTabulation={CROSS_TABULATION} />),
    ).filter((row) => row.length > 0);
    expect(rows).toHaveLength(5);
    for (const row of rows) expect(row.slice(0, -1).reduce((a, b) => a + b, 0)).toBe(row.at(-1));
    rows.at(-1)?.forEach((total, column) => {
      expect(rows.slice(0, -1).reduce((all, row) => all + (row[column] ?? 0), 0)).toBe(total);
    });
    expect(rows.at(-1)?.at(-1)).toBe(1642);
  });

  it("leaves out rows and columns with nobody, but never the invalid row", () => {
    const markup = renderToString(<FourfoldTable caption="nobody" crossTabulation={NO_CROSS_TABULATION} />);
    expect(markup).toContain('<th scope="row">invalid</th>');
    expect(markup).not.toContain("not done");
    expect(markup).not.toContain("indeterminate");
  });
});

describe("the reactive bar", () => {
  it("is drawn to a shared scale", () => {
    const drawn = renderToString(
      <ReactiveBar truePositives={400} falsePositives={100} most={1000} width={301} />,
    );
    const widths = [...drawn.matchAll(/<rect[^>]* width="([\d.]+)"/g)].map((found) => Number(found[1]));
    expect(widths).toEqual([120, 30]);
    expect(drawn).toContain("<title>400 true and 100 false among 500 reactive</title>");
  });

  it("draws nothing where nothing is known", () => {
    const drawn = renderToString(<ReactiveBar truePositives={null} falsePositives={100} most={1000} />);
    expect(drawn).not.toContain("<rect");
    expect(drawn).toContain("no estimate");
  });

  it("takes its scale from the fullest row", () => {
    expect(
      mostReactive([
        { truePositives: 442, falsePositives: 50 },
        { truePositives: null, falsePositives: null },
      ]),
    ).toBe(492);
    expect(mostReactive([])).toBe(1);
  });
});

describe("wholePeople", () => {
  it("adds up, and is never a person away from what was expected", () => {
    const expected = fc.array(fc.double({ min: 0, max: 10_000, noNaN: true }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(expected, fc.integer({ min: 1, max: 10_000 }), (values, total) => {
        const sum = values.reduce((all, value) => all + value, 0);
        fc.pre(sum > 1e-6);
        const whole = wholePeople(values, total);
        expect(whole.reduce((all, value) => all + value, 0)).toBe(total);
        whole.forEach((people, index) => {
          expect(Math.abs(people - ((values[index] ?? 0) * total) / sum)).toBeLessThan(1 + 1e-9);
        });
      }),
    );
  });

  it("gives nobody where nobody is expected", () => {
    expect(wholePeople([0, 0], 1000)).toEqual([0, 0]);
  });
});

describe("natural frequencies", () => {
  /** Marks of one kind, less the one in the key. */
  const marks = (markup: string, kind: string) => {
    const paths = [...markup.matchAll(new RegExp(`<path class="fig-person fig-${kind}" d="([^"]*)"`, "g"))];
    return paths.reduce((total, path) => total + (path[1]?.match(/M/g) ?? []).length, 0) - 1;
  };

  it("are a thousand marks of four kinds", () => {
    const drawn = renderToString(
      <NaturalFrequencies
        title="a place"
        truePositives={442}
        falseNegatives={8}
        falsePositives={50}
        trueNegatives={9500}
      />,
    );
    // 44.2, 0.8, 5 and 950 of 1,000: the largest remainder goes to the missed.
    expect([
      marks(drawn, "found"),
      marks(drawn, "missed"),
      marks(drawn, "false-alarm"),
      marks(drawn, "rest"),
    ]).toEqual([44, 1, 5, 950]);
    expect(drawn).not.toContain("NaN");
  });

  it("never put two people in one place", () => {
    const places = Array.from({ length: 1000 }, (_, person) => place(person));
    expect(new Set(places.map(({ x, y }) => `${x} ${y}`)).size).toBe(1000);
  });

  it("draw an empty array for no expectation", () => {
    const drawn = renderToString(
      <NaturalFrequencies
        title="none"
        truePositives={0}
        falseNegatives={0}
        falsePositives={0}
        trueNegatives={0}
      />,
    );
    expect(marks(drawn, "rest")).toBe(0);
    expect(drawn).not.toContain("NaN");
  });
});

describe("the reference tree", () => {
  it.each([
    ["usual", ALGORITHM],
    ["looped", LOOPED],
  ] as const)("draws each assay once and each result of the %s one", (_, algorithm) => {
    const layout = layOutTree(algorithm, FIGURE_WORDS.referenceTree);
    expect(layout.boxes).toHaveLength(algorithm.length);
    const results = algorithm.flatMap((step) => Object.keys(step.leads_to)).length;
    expect(layout.labels.flatMap((label) => label.lines)).toHaveLength(results);
    const inside = layout.boxes.every(
      (box) => box.x >= 0 && box.y >= 0 && box.y + box.height <= layout.height,
    );
    expect(inside).toBe(true);
  });

  it("ends in the statuses that the algorithm names", () => {
    const ends = layOutTree(ALGORITHM, FIGURE_WORDS.referenceTree).leaves.map((leaf) => leaf.status);
    expect(ends.toSorted()).toEqual(["indeterminate", "negative", "negative", "negative", "positive"]);
  });

  it("lets no boxes or leaves of one column touch", () => {
    const { boxes, leaves } = layOutTree(LOOPED, FIGURE_WORDS.referenceTree);
    const items = [
      ...boxes.map(({ x, y, height }) => ({ x, top: y, bottom: y + height })),
      ...leaves.map(({ x, y }) => ({ x, top: y - 9, bottom: y + 9 })),
    ];
    items.forEach((one, index) => {
      for (const other of items.slice(index + 1)) {
        if (one.x === other.x) expect(one.bottom <= other.top || other.bottom <= one.top).toBe(true);
      }
    });
  });

  it("is a sentence where there is no algorithm", () => {
    expect(renderToString(<ReferenceTree analyte="HBsAg" algorithm={undefined} />)).toMatch(
      /^<p[^>]*>The reference status for HBsAg/,
    );
  });
});

describe("the cassette", () => {
  it("shows the lines in the kit file's order, and what each pattern means", () => {
    const drawn = renderToString(<Cassette kit={KIT} analytes={{ hbsag: "HBsAg", anti_hcv: "anti-HCV" }} />);
    expect([...drawn.matchAll(/text-anchor="middle">(\w+)</g)].map((found) => found[1])).toEqual([
      "C",
      "T1",
      "T2",
      "specimen",
    ]);
    expect(drawn).toContain(
      "non-reactive; reactive for HBsAg; reactive for anti-HCV; reactive for HBsAg and anti-HCV; no control line",
    );
  });
});

describe("the forest", () => {
  const proportion = (count: number, total: number) => ({
    count,
    total,
    value: total === 0 ? null : count / total,
    lower: total === 0 ? null : 0.6,
    upper: total === 0 ? null : 0.99,
  });
  const markup = renderToString(
    <Forest
      caption="Sensitivity"
      axis="Sensitivity (%)"
      overall={{ label: "All", estimate: proportion(111, 113) }}
      criterion={0.95}
      direction="at_least"
      strata={[
        {
          title: "Site",
          planned: true,
          groups: [
            { label: "<b>Place</b>", estimate: proportion(37, 38) },
            { label: "Empty", estimate: proportion(0, 0) },
          ],
        },
        { title: "Age", planned: false, groups: [{ label: "old", estimate: proportion(9, 12) }] },
      ]}
    />,
  );

  it("has a row, a strip and counts for each group, and one for all", () => {
    expect(markup.match(/<th scope="row">/g)).toHaveLength(4);
    expect(markup.match(/class="fig fig-drawn fig-strip"/g)).toHaveLength(5);
    expect(markup).toContain("37\u00a0/\u00a038");
    expect(markup).toContain("0\u00a0/\u00a00");
  });

  it("marks what was not planned, escapes labels, and never says NaN", () => {
    expect(markup).toContain("exploratory");
    expect(markup).toContain("fig-exploratory");
    expect(markup).toContain("&lt;b>Place");
    expect(markup).not.toMatch(/NaN|undefined|null/);
  });
});

describe("the styles", () => {
  it("fetch nothing and name every class that a figure uses", () => {
    expect(FIGURE_STYLES).not.toMatch(/url\(|@import|https?:/);
    const used = [
      renderToString(<ReferenceTree analyte="x" algorithm={ALGORITHM} />),
      renderToString(<Cassette kit={KIT} />),
      renderToString(<ReactiveBar truePositives={4} falsePositives={1} most={5} />),
      renderToString(
        <NaturalFrequencies
          title="x"
          truePositives={1}
          falseNegatives={1}
          falsePositives={1}
          trueNegatives={1}
        />,
      ),
    ].flatMap((markup) =>
      [...markup.matchAll(/class="([^"]*)"/g)].flatMap((found) => (found[1] ?? "").split(" ")),
    );
    const unknown = [...new Set(used)].filter((name) => !FIGURE_STYLES.includes(`.${name}`));
    expect(unknown).toEqual([]);
  });
});

describe("a figure on its own", () => {
  const file = standaloneSvg(renderToString(<Cassette kit={KIT} />));

  it("is named as SVG and carries every ink it uses", () => {
    expect(file).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]*><style>/);
    const used = new Set([...file.matchAll(/var\((--[a-z]+)\)/g)].map((found) => found[1] ?? ""));
    expect(used.size).toBeGreaterThan(5);
    for (const name of used) expect(file).toContain(`${name}:#`);
  });

  it("is the page's own drawing apart from that", () => {
    const bare = file.replace(/<style>.*?<\/style>/s, "").replace(' xmlns="http://www.w3.org/2000/svg"', "");
    expect(bare).toBe(renderToString(<Cassette kit={KIT} />));
  });
});
