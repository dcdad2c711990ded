import { type Algorithm, branchesOf, layOutTree, TREE, type TreeBox, type TreeLeaf } from "./tree-layout.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface ReferenceTreeProps {
  /** The analyte as a reader knows it. */
  readonly analyte: string;
  readonly algorithm: Algorithm | undefined;
  readonly words?: FigureWords["referenceTree"] | undefined;
}

/**
 * How component results give the reference status: assays as boxes, results as branches, statuses at
 * their ends (a full dot positive, a ring negative, half a dot indeterminate, and always the word).
 * Where the study file gives no algorithm, a sentence says so.
 */
export function ReferenceTree({
  analyte,
  algorithm,
  words = FIGURE_WORDS.referenceTree,
}: ReferenceTreeProps) {
  if (algorithm === undefined || algorithm.length === 0) return <p class="fig-none">{words.none(analyte)}</p>;
  const layout = layOutTree(algorithm, words);
  return (
    <svg
      class="fig fig-drawn fig-wide"
      role="img"
      width={layout.width + 2}
      height={layout.height + 2}
      viewBox={`-1 -1 ${layout.width + 2} ${layout.height + 2}`}
    >
      <title>{words.title(analyte)}</title>
      <desc>{treeInWords(algorithm, words)}</desc>
      <path class="fig-line" d={layout.paths.join("")} />
      {layout.labels.flatMap(({ x, y, lines }) =>
        lines.map((line, index) => (
          <text
            key={`${x} ${y} ${line}`}
            class="fig-label"
            x={x}
            y={y - (lines.length - 1 - index) * TREE.labelLine}
          >
            {line}
          </text>
        )),
      )}
      {layout.boxes.map((box) => (
        <Box key={`${box.x} ${box.y}`} box={box} />
      ))}
      {layout.leaves.map((leaf) => (
        <Leaf key={`${leaf.x} ${leaf.y}`} leaf={leaf} />
      ))}
    </svg>
  );
}

function Box({ box }: { box: TreeBox }) {
  const x = box.x + TREE.padding;
  const y = box.y + 18;
  return (
    <>
      <rect class="fig-box" x={box.x} y={box.y} width={box.width} height={box.height} />
      {box.lines.map((line, index) => (
        <text key={line} class="fig-strong" x={x} y={y + index * TREE.line}>
          {line}
        </text>
      ))}
      {box.notes.map((line, index) => (
        <text key={line} class="fig-label" x={x} y={y + (box.lines.length + index) * TREE.line}>
          {line}
        </text>
      ))}
    </>
  );
}

function Leaf({ leaf }: { leaf: TreeLeaf }) {
  const x = leaf.x + 4;
  return (
    <>
      {leaf.status !== "elsewhere" && (
        <circle class={leaf.status === "positive" ? "fig-full" : "fig-ring"} cx={x} cy={leaf.y} r={4} />
      )}
      {leaf.status === "indeterminate" && <path class="fig-full" d={`M${x} ${leaf.y - 4}a4 4 0 0 0 0 8z`} />}
      <text
        class={leaf.status === "elsewhere" ? "fig-second" : "fig-strong"}
        x={leaf.status === "elsewhere" ? leaf.x : x + 10}
        y={leaf.y + 4}
      >
        {leaf.words}
      </text>
    </>
  );
}

/** The tree in sentences, one per assay. */
function treeInWords(algorithm: Algorithm, words: FigureWords["referenceTree"]): string {
  const place = (target: string) =>
    target in words.statuses
      ? words.statuses[target as keyof typeof words.statuses]
      : target.replaceAll("_", " ");
  return algorithm
    .map((step) => {
      const branches = branchesOf(step).map(({ results, target }) =>
        words.leads(results.map((result) => words.results[result]).join(", "), place(target)),
      );
      return `${step.assay.replaceAll("_", " ")}: ${branches.join("; ")}.`;
    })
    .join(" ");
}
