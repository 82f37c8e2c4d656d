/** Times of the log and of readings as plain minutes: the core has no clock and no time zone of its own. */
import { InputError } from "../errors.ts";

const ISO = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?)?(Z|([+-])(\d{2}):?(\d{2}))?$/;
const MS_PER_MINUTE = 60_000;

/**
 * Minutes since 1970 of an ISO time. A time without a zone is read as UTC, so that differences within one log hold.
 *
 * @throws InputError if the text is not an ISO date or time
 * @example minutesOf("1970-01-02T00:01Z", "doneAt") // 1441
 */
export function minutesOf(text: string, where: string): number {
  const m = ISO.exec(text.trim());
  if (!m) throw new InputError(where, `cannot read the time "${text}"`, "Write it as 2026-03-01T14:30Z");
  const [, year, month, day, hour = "0", minute = "0", second = "0", , sign, zoneHour = "0", zoneMinute = "0"] = m;
  const utc = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second));
  const ahead = (sign === "-" ? -1 : 1) * (Number(zoneHour) * 60 + Number(zoneMinute));
  return utc / MS_PER_MINUTE - ahead;
}
