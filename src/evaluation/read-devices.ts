import type { DeviceResult, ReadingMethod, StudyRecords } from "../records/model.ts";

/** Someone, or an instrument, that read devices. */
export interface DeviceReader {
  /** As sets name readers: with the method where one name reads in several ways. */
  readonly name: string;
  readonly method: ReadingMethod;
}

/** All readings of one analyte by one kit on one specimen type, device by device. */
export interface ReadDevices {
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  /** The primary reader first, then eyes before instruments. */
  readonly readers: readonly DeviceReader[];
  /** Of each device each reader's result, by reader name. */
  readonly devices: readonly ReadonlyMap<string, DeviceResult>[];
}

/** Groups the results of all readers by analyte, kit and specimen type, in the order of the study file. */
export function readDevices(records: StudyRecords): ReadDevices[] {
  const groups = new Map<string, DeviceResult[]>();
  for (const result of records.results) {
    if (isUnread(result, records)) continue;
    const key = [result.analyte, result.kit, result.specimen].join("\u0000");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [result]);
    else group.push(result);
  }
  const orders = [
    records.study.analytes.map((analyte) => analyte.id),
    records.kits.map((kit) => kit.id),
    records.study.specimens.map((specimen) => specimen.type),
  ];
  const rank = ({ analyte, kit, specimen }: ReadDevices) =>
    [analyte, kit, specimen].map((name, at) => orders[at]?.indexOf(name) ?? 0);
  return [...groups.values()]
    .map((results) => readTogether(results, records))
    .sort((one, other) => {
      const [here, there] = [rank(one), rank(other)];
      const at = here.findIndex((place, index) => place !== there[index]);
      return at < 0 ? 0 : (here[at] as number) - (there[at] as number);
    });
}

/** A device recorded as invalid that nobody read stands among the results under the primary reader's name. */
function isUnread({ reason, minutes, window }: DeviceResult, { study }: StudyRecords): boolean {
  if (study.records.shape !== "lines") return false;
  return reason === "recorded_invalid" && minutes === null && window === "unknown";
}

function readTogether(results: readonly DeviceResult[], { study }: StudyRecords): ReadDevices {
  const { analyte, kit, specimen } = results[0] as DeviceResult;
  const seen = new Map<string, { reader: string; method: ReadingMethod }>();
  for (const { reader, method } of results) seen.set(`${reader}\u0000${method}`, { reader, method });
  const all = [...seen.values()];
  const nameOf = ({ reader, method }: { reader: string; method: ReadingMethod }) => {
    const several = all.filter((entry) => entry.reader === reader).length > 1;
    return several && method !== "eye" ? `${reader} (${method})` : reader;
  };
  const readers = all.map((entry) => ({ ...entry, name: nameOf(entry) }));
  const place = ({ reader, method }: (typeof readers)[number]) =>
    METHODS.indexOf(method) + (reader === study.readers.primary ? 0 : METHODS.length);
  readers.sort((one, other) => place(one) - place(other) || (one.name < other.name ? -1 : 1));
  const names = new Map(readers.map(({ reader, method, name }) => [`${reader}\u0000${method}`, name]));
  const devices = new Map<string, Map<string, DeviceResult>>();
  const itemOf = itemNames(study);
  for (const result of results) {
    const item = itemOf(result);
    const device = devices.get(item) ?? new Map<string, DeviceResult>();
    devices.set(item, device);
    const name = names.get(`${result.reader}\u0000${result.method}`) as string;
    if (!device.has(name)) device.set(name, result);
  }
  return {
    analyte,
    kit,
    specimen,
    readers: readers.map(({ name, method }) => ({ name, method })),
    devices: [...devices.values()],
  };
}

const METHODS: readonly ReadingMethod[] = ["eye", "eye_photo", "optical"];

/** Results without a device column: all readers' rows of one person and attempt speak of one device. */
function itemNames({ records }: StudyRecords["study"]): (result: DeviceResult) => string {
  if (records.shape === "results" && records.columns.device === undefined) {
    return ({ person, attempt }) => `${person}\u0000${attempt}`;
  }
  return ({ device }) => device;
}
