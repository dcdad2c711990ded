import { describe, expect, it } from "vitest";
import type { Io } from "../../src/cli/io.ts";
import { progressOn } from "../../src/cli/progress.ts";

/** Progress written by a run whose steps end at these milliseconds. */
function told(times: readonly number[], work: (progress: ReturnType<typeof progressOn>) => void): string {
  let text = "";
  const clock = [...times];
  const io: Io = {
    out: () => {
      throw new Error("progress belongs on standard error");
    },
    err: (piece) => {
      text += piece;
    },
    colour: false,
    folder: "/",
    home: "/",
    input: async () => new Uint8Array(),
    now: () => clock.shift() ?? 0,
  };
  work(progressOn(io));
  return text;
}

describe("progress", () => {
  it("says what is being done, and how long it took where that is worth telling", () => {
    const text = told([0, 400, 400, 2900], (progress) => {
      progress.step("reading");
      progress.step("evaluating");
      progress.end();
    });
    expect(text).toBe("reading …\nevaluating …\nevaluating: 2.5 s\n");
  });

  it("may be ended twice, and before it began", () => {
    expect(
      told([0, 10], (progress) => {
        progress.end();
        progress.step("reading");
        progress.end();
        progress.end();
      }),
    ).toBe("reading …\n");
  });
});
