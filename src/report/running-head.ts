import type { Evaluation } from "../evaluation/document.ts";
import type { Words } from "./words/en.ts";

/** The line at the head of every printed page; it says where the report is not of the stated plan. */
export function runningHead({ study, exploration }: Evaluation, words: Words): string {
  const running = words.page.running(study.title);
  return exploration === null ? running : words.exploration.running(running);
}
