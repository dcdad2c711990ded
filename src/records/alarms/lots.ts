import type { Gathered, UsedDevice } from "../gathered.ts";
import type { Alarm } from "../model.ts";

/** From this share on, a lot and a site can no longer be told apart. Rule of our own. */
const NEARLY_ALL = 0.9;

/**
 * Kit by kit: one lot only; or a lot used (nearly) at one site alone, which used (nearly) that lot alone: the
 * lot's effect and the site's cannot be told apart.
 */
export function lotAlarms({ sets, devices }: Pick<Gathered, "sets" | "devices">): Alarm[] {
  const kits = [...new Set(sets.map((set) => set.kit))];
  return kits.flatMap((kit) => {
    const ofKit = devices.filter((device) => device.kit === kit);
    const name = kits.length > 1 ? [kit] : [];
    return kitAlarms(ofKit).map((alarm) => ({ ...alarm, subjects: [...alarm.subjects, ...name] }));
  });
}

/** Of one kit's devices. */
function kitAlarms(devices: readonly UsedDevice[]): Alarm[] {
  const bothKnown = devices.filter((device) => device.lot !== null);
  const lots = countBy(bothKnown, (device) => device.lot);
  const sites = countBy(bothKnown, (device) => device.site);
  if (lots.size === 1) {
    return [
      { code: "single_lot", count: bothKnown.length, total: devices.length, subjects: [...lots.keys()] },
    ];
  }
  if (sites.size < 2) return [];
  const together = countBy(bothKnown, (device) =>
    device.site === null ? null : `${device.lot}\u0001${device.site}`,
  );
  const alarms: Alarm[] = [];
  for (const [key, count] of together) {
    const [lot = "", site = ""] = key.split("\u0001");
    const ofLot = count / (lots.get(lot) ?? count);
    const ofSite = count / (sites.get(site) ?? count);
    if (ofLot < NEARLY_ALL || ofSite < NEARLY_ALL) continue;
    const total = (lots.get(lot) ?? 0) + (sites.get(site) ?? 0) - count;
    alarms.push({ code: "lot_confounded_with_site", count, total, subjects: [lot, site] });
  }
  return alarms.sort((one, other) => (one.subjects.join() < other.subjects.join() ? -1 : 1));
}

function countBy(
  devices: readonly UsedDevice[],
  key: (device: UsedDevice) => string | null,
): Map<string, number> {
  const counts = new Map<string, number>();
  for (const device of devices) {
    const name = key(device);
    if (name !== null) counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return counts;
}
