/** A zone on a straight before it is posed. `softBefore` and `softAfter` are room beyond its own length that may give way. */
export interface UnsettledZone {
  readonly fromMm: number;
  readonly toMm: number;
  readonly softBeforeMm: number;
  readonly softAfterMm: number;
  /** Of two that touch by a sliver, the one of the higher rank gives way. */
  readonly rank: number;
}

/** What remains of a zone; `null` where nothing does. */
export type SettledZone = { readonly fromMm: number; readonly toMm: number } | null;

const wholeMicrometres = (mm: number): number => Math.round(mm * 1000) / 1000;

/**
 * Lets zones of one straight that touch as drawn touch as posed. Picks are no finer than the drawing, so that the flap
 * beside a column may overlap it by a sliver; room kept free beside equipment may reach into an opening, into the room
 * kept for other equipment, or past the end of the run. Such overlaps, up to `toleranceMm` beyond what may give way, are
 * trimmed; deeper ones stay, for whoever poses the problem to refuse by name. Answers in the order given.
 *
 * @param bounds how far material of the straight may reach, mm along its front
 * @param toleranceMm the +/- of the straight at k = 2
 */
export const settledZones = (
  zones: readonly UnsettledZone[],
  bounds: { readonly lowMm: number; readonly highMm: number },
  toleranceMm: number,
): readonly SettledZone[] => {
  const placed = zones.map((zone, index) => ({
    ...zone,
    fromMm: Math.max(zone.fromMm, bounds.lowMm),
    toMm: Math.min(zone.toMm, bounds.highMm),
    index,
  }));
  const inOrder = placed.toSorted((a, b) => a.fromMm - b.fromMm || a.toMm - b.toMm || a.index - b.index);
  for (const [place, later] of inOrder.entries()) {
    const earlier = inOrder[place - 1];
    if (!earlier) continue;
    const overlapMm = earlier.toMm - later.fromMm;
    const softMm = earlier.softAfterMm + later.softBeforeMm;
    if (overlapMm <= 0 || overlapMm > softMm + toleranceMm) continue;
    const byLaterMm = Math.min(overlapMm, later.softBeforeMm);
    const byEarlierMm = Math.min(overlapMm - byLaterMm, earlier.softAfterMm);
    const sliverMm = overlapMm - byLaterMm - byEarlierMm;
    const isLaterTrimmed = later.rank >= earlier.rank;
    later.fromMm += byLaterMm + (isLaterTrimmed ? sliverMm : 0);
    earlier.toMm = later.fromMm;
  }
  // A zone drawn without any width stays one, to be refused; one that lies where nothing stands is none.
  return placed.map(({ fromMm, toMm, index }) =>
    toMm > fromMm || (toMm === fromMm && zones[index]?.fromMm === zones[index]?.toMm)
      ? { fromMm: wholeMicrometres(fromMm), toMm: wholeMicrometres(toMm) }
      : null,
  );
};
