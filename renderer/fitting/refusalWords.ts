/** The zones of a straight by the names that they have in a problem. */
const zoneNouns: Readonly<Record<string, string>> = {
  blocked: 'blocked zone',
  openings: 'opening',
  bays: 'bay',
  columns: 'column',
};

/**
 * Why a run can't be filled, as an operator says it: places in the problem become straights and zones as the rail counts
 * them, from 1, and lengths whole millimetres.
 *
 * @example refusalWords('Front bar: straights[1].openings[0]: overlaps straights[1].bays[0] (4885.609 to 5544.358).')
 * // 'Front bar: opening 1 of straight 2: overlaps bay 1 of straight 2 (4886 to 5544).'
 */
export const refusalWords = (message: string): string =>
  message
    .replace(
      /straights\[(\d+)\](?:\.(blocked|openings|bays|columns)(?:\[(\d+)\])?)?/g,
      (_found, straight: string, kind: string | undefined, zone: string | undefined) => {
        const where = `straight ${Number(straight) + 1}`;
        const noun = kind && zoneNouns[kind];
        if (!noun) return where;
        return zone === undefined ? `${noun}s of ${where}` : `${noun} ${Number(zone) + 1} of ${where}`;
      },
    )
    .replace(/\d+\.\d+/g, (number) => String(Math.round(Number(number))));
