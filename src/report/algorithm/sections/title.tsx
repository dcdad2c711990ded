import type { ComponentChildren } from "preact";
import type { AlgorithmSectionProps } from "../context.ts";

/** Which programme, what it tests for, and how many ways of testing are looked at. */
export function Title({ report }: AlgorithmSectionProps) {
  const { algorithm: words, grammar } = report.words;
  const { file, dependence } = report.algorithms;
  const analytes = grammar.listed(file.analytes.map(({ title }) => title));
  const about = [
    ...words.about(analytes, file.algorithms.length, file.channels.length),
    words.dependenceShort[dependence.kind],
  ];
  return (
    <header class="title">
      <p class="over">
        {words.kind} <span aria-hidden="true">·</span> {file.id}
      </p>
      <h1>{whole(file.title)}</h1>
      <p class="sub">{about.join(" · ")}</p>
    </header>
  );
}

/** Words with a hyphen are not broken at it: "anti-HCV" stays on one line. */
function whole(title: string): ComponentChildren[] {
  return title.split(" ").flatMap((word, at): ComponentChildren[] => [
    ...(at === 0 ? [] : [" "]),
    word.includes("-") ? (
      <span key={at} class="whole">
        {word}
      </span>
    ) : (
      word
    ),
  ]);
}
