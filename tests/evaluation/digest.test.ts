import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { digestOfFiles, sha256 } from "../../src/evaluation/digest.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

describe("sha256", () => {
  it("gives the digests printed in FIPS 180-4's example file", () => {
    // NIST, Cryptographic Standards and Guidelines, examples for SHA-256 (one block, two blocks).
    expect(sha256(bytes("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(sha256(bytes("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"))).toBe(
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    );
  });

  it("agrees with the platform's own routine on any bytes", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (any) => {
        expect(sha256(any)).toBe(createHash("sha256").update(any).digest("hex"));
      }),
    );
  });

  it("reads a view into a larger buffer from its own beginning", () => {
    const whole = bytes("..abc..");
    expect(sha256(whole.subarray(2, 5))).toBe(sha256(bytes("abc")));
  });
});

describe("digestOfFiles", () => {
  it("is the digest of the lines that sha256sum prints, whatever the order", () => {
    const files = [
      { name: "study.yaml", sha256: sha256(bytes("b")) },
      { name: "kit.yaml", sha256: sha256(bytes("a")) },
    ];
    const lines = `${sha256(bytes("a"))}  kit.yaml\n${sha256(bytes("b"))}  study.yaml\n`;
    const expected = createHash("sha256").update(lines).digest("hex");
    expect(digestOfFiles(files)).toBe(expected);
    expect(digestOfFiles([...files].reverse())).toBe(expected);
  });
});
