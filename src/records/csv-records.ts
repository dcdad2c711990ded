/** One record of a CSV text: where it starts, and its cells as positions in the text. */
export interface CsvRecord {
  /** Line on which the record starts, the first line being 1. */
  readonly line: number;
  /** Number of cells; 0 for a malformed record. */
  readonly cells: number;
  /** The text of one cell, quotes taken off, spaces at both ends kept. */
  cell(index: number): string;
  /** Where one cell starts in the text, and where it ends. */
  start(index: number): number;
  end(index: number): number;
  /** The cell's text where it has doubled quotes, so that it is no plain piece of the text. */
  replaced(index: number): string | undefined;
  readonly malformed: boolean;
  /** Length of the longest cell. */
  readonly longest: number;
}

const QUOTE = 34;
const NEWLINE = 10;
const RETURN = 13;

/**
 * Splits CSV text (RFC 4180; any delimiter of one character; LF, CRLF or CR) into records and hands
 * each to `take`, together with its line. Empty lines are no records. A quote counts only at the
 * start of a cell. A record whose quotes do not close properly is handed over as malformed, and
 * reading goes on at the next line, so that one stray quote costs one row.
 *
 * The record handed over is used again for the next one: take out of it what is needed.
 */
export function csvRecords(text: string, delimiter: string, take: (record: CsvRecord) => void): void {
  const cursor = new Cursor(text, delimiter.charCodeAt(0));
  while (cursor.next()) take(cursor);
}

class Cursor implements CsvRecord {
  line = 0;
  cells = 0;
  malformed = false;
  longest = 0;
  private readonly starts: number[] = [];
  private readonly ends: number[] = [];
  /** Cells with doubled quotes, which are not a plain piece of the text. */
  private readonly unescaped = new Map<number, string>();
  private at = 0;
  private nextLine = 1;

  constructor(
    private readonly text: string,
    private readonly delimiter: number,
  ) {}

  cell(index: number): string {
    return this.replaced(index) ?? this.text.slice(this.starts[index], this.ends[index]);
  }

  start(index: number): number {
    return this.starts[index] ?? 0;
  }

  end(index: number): number {
    return this.ends[index] ?? 0;
  }

  replaced(index: number): string | undefined {
    return this.unescaped.size > 0 ? this.unescaped.get(index) : undefined;
  }

  /** Moves to the next record; false at the end. */
  next(): boolean {
    this.skipEmptyLines();
    if (this.at >= this.text.length) return false;
    this.line = this.nextLine;
    this.cells = 0;
    this.malformed = false;
    this.longest = 0;
    if (this.unescaped.size > 0) this.unescaped.clear();
    const start = this.at;
    while (this.readCell()) this.at += 1;
    if (this.malformed) {
      this.cells = 0;
      this.nextLine = this.line;
      this.at = this.endOfLine(start);
    }
    this.passLineEnd();
    return true;
  }

  /** Reads one cell; true where a delimiter follows it. */
  private readCell(): boolean {
    if (this.text.charCodeAt(this.at) === QUOTE) this.readQuoted();
    else this.readPlain();
    if (this.malformed || this.at >= this.text.length) return false;
    return this.text.charCodeAt(this.at) === this.delimiter;
  }

  private readPlain(): void {
    const start = this.at;
    let at = start;
    for (; at < this.text.length; at++) {
      const code = this.text.charCodeAt(at);
      if (code === this.delimiter || code === NEWLINE || code === RETURN) break;
    }
    this.at = at;
    this.push(start, at);
  }

  private readQuoted(): void {
    const start = this.at + 1;
    let end = this.text.indexOf('"', start);
    let doubled = false;
    while (end >= 0 && this.text.charCodeAt(end + 1) === QUOTE) {
      doubled = true;
      end = this.text.indexOf('"', end + 2);
    }
    const following = end < 0 ? Number.NaN : this.text.charCodeAt(end + 1);
    const closed =
      end >= 0 &&
      (end + 1 >= this.text.length ||
        following === this.delimiter ||
        following === NEWLINE ||
        following === RETURN);
    if (!closed) {
      this.malformed = true;
      return;
    }
    if (doubled) this.unescaped.set(this.cells, this.text.slice(start, end).replaceAll('""', '"'));
    this.countLines(start, end);
    this.at = end + 1;
    this.push(start, end);
  }

  private push(start: number, end: number): void {
    this.starts[this.cells] = start;
    this.ends[this.cells] = end;
    this.cells += 1;
    if (end - start > this.longest) this.longest = end - start;
  }

  private countLines(start: number, end: number): void {
    for (let at = start; at < end; at++) {
      const code = this.text.charCodeAt(at);
      if (code === NEWLINE) this.nextLine += 1;
      else if (code === RETURN && this.text.charCodeAt(at + 1) !== NEWLINE) this.nextLine += 1;
    }
  }

  private endOfLine(start: number): number {
    let at = start;
    while (at < this.text.length) {
      const code = this.text.charCodeAt(at);
      if (code === NEWLINE || code === RETURN) break;
      at += 1;
    }
    return at;
  }

  private passLineEnd(): void {
    const code = this.text.charCodeAt(this.at);
    if (code !== NEWLINE && code !== RETURN) return;
    this.at += code === RETURN && this.text.charCodeAt(this.at + 1) === NEWLINE ? 2 : 1;
    this.nextLine += 1;
  }

  private skipEmptyLines(): void {
    while (this.at < this.text.length) {
      const code = this.text.charCodeAt(this.at);
      if (code !== NEWLINE && code !== RETURN) return;
      this.passLineEnd();
    }
  }
}
