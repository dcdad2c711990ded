import { makeDemo } from "../../../demo/make-demo.ts";
import type { InputFile } from "../../../records/model.ts";
import { textFile } from "../../study/folder.ts";
import { type Tell, whole } from "../step.ts";

/** The invented demonstration study, made anew by its seeded generator: the bytes that the package carries. */
export async function demoStudy(_ask: null, tell: Tell): Promise<readonly InputFile[]> {
  await tell(whole("computing"));
  return makeDemo().files.map(({ name, text }) => textFile(name, text));
}
