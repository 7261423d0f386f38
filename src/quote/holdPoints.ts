/** A point at which installation stops until somebody else is done. */
export interface HoldPoint {
  readonly when: 'before' | 'after-standing' | 'end';
  readonly what: string;
  readonly how: string;
  /** Only where the run has services. */
  readonly forServices: boolean;
}

/** Hold points of an installation: common practice, no source. */
const all: readonly HoldPoint[] = [
  {
    when: 'before',
    what: 'Hold: site measure',
    how: 'Lengths on the site-measure list are taken, typed back in, and the fit holds',
    forServices: false,
  },
  {
    when: 'before',
    what: 'Hold: floor and walls',
    how: 'Finished and dry; level within the feet’s adjustment; datum and front line marked',
    forServices: false,
  },
  {
    when: 'before',
    what: 'Hold: services rough-in',
    how: 'Licensed trades have every point up at its place and height, tested and capped',
    forServices: true,
  },
  {
    when: 'after-standing',
    what: 'Hold: services behind the frames',
    how: 'Pipes, conduits and beer lines are in the gap before it closes; licensed trades sign off',
    forServices: true,
  },
  {
    when: 'after-standing',
    what: 'Hold: tops level and joined',
    how: 'Checked before anything is let in',
    forServices: false,
  },
  {
    when: 'end',
    what: 'Hold: connections and tests',
    how: 'Water, drains, electricity, gas and beer lines are connected and tested by licensed trades under local codes',
    forServices: true,
  },
  {
    when: 'end',
    what: 'Hand over',
    how: 'Walk round with the client; list what is open',
    forServices: false,
  },
];

/** The hold points of a run, in the order of the work. */
export const holdPoints = (hasServices: boolean): readonly HoldPoint[] =>
  all.filter(({ forServices }) => hasServices || !forServices);
