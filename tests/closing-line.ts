import type { Reporter, TestModule } from "vitest/node";

/** Closes a run with one plain line, readable by any log reader: `tests: 12 passed, 0 failed, 1 skipped`. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const seen = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) seen[test.result().state] += 1;
      if (module.errors().length > 0) seen.failed += 1;
    }
    console.log(
      `tests: ${seen.passed} passed, ${seen.failed} failed, ${seen.skipped + seen.pending} skipped`,
    );
  }
}
