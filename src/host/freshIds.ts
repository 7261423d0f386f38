import { randomBytes } from 'node:crypto';

const timeDigits = 9;
const serialDigits = 4;
const serialsMost = 36 ** serialDigits;
const randomHexBytes = 6;

const base36 = (value: number, digits: number): string => value.toString(36).padStart(digits, '0');

/**
 * Makes ids of lower-case letters and digits, of which a later one sorts after an earlier one of the same process, and
 * no two processes make the same: time, serial number, random digits of this maker's.
 *
 * @param nowMs the time in ms since 1970; where it is set back, the ids go on from where they were
 */
export const createFreshIds = (nowMs: () => number): (() => string) => {
  const maker = randomBytes(randomHexBytes).toString('hex');
  let timeMs = 0;
  let serial = 0;
  return () => {
    const now = nowMs();
    if (now > timeMs) {
      timeMs = now;
      serial = 0;
    } else {
      serial += 1;
      if (serial === serialsMost) {
        timeMs += 1;
        serial = 0;
      }
    }
    return base36(timeMs, timeDigits) + base36(serial, serialDigits) + maker;
  };
};
