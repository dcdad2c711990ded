import { describe, expect, it } from "vitest";
import { toBase64 } from "../../src/workbench/work/base64.ts";
import { Desk, type WorkerLike } from "../../src/workbench/work/desk.ts";
import { JobFault, JobStopped, type Request } from "../../src/workbench/work/messages.ts";
import { serve, type WorkerScope } from "../../src/workbench/work/serve.ts";

const pause = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
const bytes = (text: string) => new TextEncoder().encode(text);

/** A worker's two ends in one thread: messages pass as copies, in later turns. */
function worker(): WorkerLike & { readonly ended: () => boolean } {
  let ended = false;
  const scope: WorkerScope = {
    onmessage: null,
    postMessage: (reply) => {
      const data = structuredClone(reply);
      setTimeout(() => ended || page.onmessage?.({ data }));
    },
  };
  const page = {
    onmessage: null as WorkerLike["onmessage"],
    onerror: null as WorkerLike["onerror"],
    postMessage: (request: Request) => {
      const data = structuredClone(request);
      setTimeout(() => ended || scope.onmessage?.({ data }));
    },
    terminate: () => {
      ended = true;
    },
    ended: () => ended,
  };
  serve(scope);
  return page;
}

describe("the desk", () => {
  it("hands jobs to one worker, in order, and tells their steps", async () => {
    const started: ReturnType<typeof worker>[] = [];
    const desk = new Desk(() => {
      started.push(worker());
      return started.at(-1) as WorkerLike;
    }, pause);
    const steps: string[] = [];
    const texts = desk.run("squeeze", [bytes("one"), bytes("two")], ({ step }) => steps.push(step));
    const squeezed = await texts.given;
    const pieces = await desk.run("unsqueeze", squeezed).given;
    expect(pieces.map((piece) => new TextDecoder().decode(piece))).toEqual(["one", "two"]);
    expect(steps).toEqual(["packing"]);
    expect(started).toHaveLength(1);
  });

  it("gives a job's fault to the one who asked, and goes on", async () => {
    const desk = new Desk(worker, pause);
    const broken = desk.run("unsqueeze", [toBase64(bytes("not squeezed"))]);
    await expect(broken.given).rejects.toBeInstanceOf(JobFault);
    expect((await desk.run("unpack", bytes("no archive")).given).ok).toBe(false);
  });

  it("stops a job by ending its worker; what waited behind it is done by the next", async () => {
    const started: ReturnType<typeof worker>[] = [];
    const desk = new Desk(() => {
      started.push(worker());
      return started.at(-1) as WorkerLike;
    }, pause);
    const first = desk.run("squeeze", [bytes("first")]);
    const second = desk.run("squeeze", [bytes("second")]);
    first.stop();
    await expect(first.given).rejects.toBeInstanceOf(JobStopped);
    expect(await second.given).toHaveLength(1);
    expect(started.map(({ ended }) => ended())).toEqual([true, false]);
  });

  it("does all in the page where no worker can be had, and stops there too", async () => {
    const desk = new Desk(() => null, pause);
    const stopped = desk.run("squeeze", [bytes("one")]);
    stopped.stop();
    await expect(stopped.given).rejects.toBeInstanceOf(JobStopped);
    expect(await desk.run("squeeze", [bytes("two")]).given).toHaveLength(1);
    expect(desk.inPage).toBe(true);
  });

  it("takes a worker that never answers but falls over for one that can't be had", async () => {
    const desk = new Desk(() => {
      const dead = {
        ...worker(),
        postMessage: () => void setTimeout(() => dead.onerror?.({ message: "no" })),
      };
      return dead;
    }, pause);
    expect(await desk.run("squeeze", [bytes("one")]).given).toHaveLength(1);
    expect(desk.inPage).toBe(true);
  });
});
