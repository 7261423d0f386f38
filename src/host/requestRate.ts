/** How many may come at once, and how many more each second. */
export interface Rate {
  readonly burst: number;
  readonly perSecond: number;
}

/**
 * A token bucket: answers true as long as no more came than the rate allows.
 *
 * @param nowMs a clock in ms that never goes back
 */
export const createRequestRate = ({ burst, perSecond }: Rate, nowMs: () => number): (() => boolean) => {
  let left = burst;
  let lastMs = nowMs();
  return () => {
    const now = nowMs();
    left = Math.min(burst, left + ((now - lastMs) / 1000) * perSecond);
    lastMs = now;
    if (left < 1) return false;
    left -= 1;
    return true;
  };
};
