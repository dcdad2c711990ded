import { describe, expect, it } from "vitest";
import { decode } from "../../src/records/decode.ts";

const utf8 = (text: string) => new TextEncoder().encode(text);

describe("bytes as text", () => {
  it("reads UTF-8 with and without a byte order mark", () => {
    expect(decode(utf8("é,ß\n"))).toEqual({ ok: true, text: "é,ß\n", byteOrderMark: false });
    expect(decode(Uint8Array.of(0xef, 0xbb, 0xbf, 0x61))).toEqual({
      ok: true,
      text: "a",
      byteOrderMark: true,
    });
  });

  it("refuses Latin-1 and names the line of the first byte that cannot be UTF-8", () => {
    const latin1 = Uint8Array.from("a,b\n1,2\nBr\u00fccke,3\n", (letter) => letter.charCodeAt(0));
    expect(decode(latin1)).toMatchObject({
      ok: false,
      line: 3,
      received: expect.stringContaining("Latin-1"),
    });
  });

  it("refuses UTF-16 with a mark and without", () => {
    const wide = new Uint8Array(Uint16Array.from("site,result\n", (letter) => letter.charCodeAt(0)).buffer);
    expect(decode(Uint8Array.of(0xff, 0xfe, ...wide))).toMatchObject({
      ok: false,
      received: "text in UTF-16",
    });
    expect(decode(Uint8Array.of(0xfe, 0xff, 0, 0x61))).toMatchObject({
      ok: false,
      received: "text in UTF-16",
    });
    expect(decode(wide)).toMatchObject({ ok: false, received: "text in UTF-16" });
  });

  it("refuses a spreadsheet file by name", () => {
    expect(decode(Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 0))).toMatchObject({
      ok: false,
      received: "a ZIP archive or spreadsheet",
    });
  });

  it("reads nothing from nothing", () => {
    expect(decode(new Uint8Array())).toEqual({ ok: true, text: "", byteOrderMark: false });
  });
});
