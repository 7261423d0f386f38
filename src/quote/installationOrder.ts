import { crewFor } from '../access/crewFor.ts';
import type { Run } from '../document/projectDocument.ts';
import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { RunZone } from '../measure/zonesOfRun.ts';
import { datumOf } from '../services/servicePoints.ts';
import type { StockRange, Support } from '../stock/stockSchema.ts';
import { arcWedgeName } from './arcWedgeName.ts';
import { holdPoints } from './holdPoints.ts';
import { type PieceMarks, pieceMarks } from './pieceMarks.ts';

/** What a step of the installation is about. */
export type InstallationStepKind =
  | 'hold'
  | 'corner'
  | 'standing'
  | 'leftover'
  | 'carried'
  | 'drop-in'
  | 'countertop'
  | 'finish';

/** One step, in the order in which it is done. */
export interface InstallationStep {
  /** From 1, over the whole run. */
  readonly number: number;
  readonly kind: InstallationStepKind;
  /** Of what is placed; empty for a hold. */
  readonly mark: string;
  readonly what: string;
  /** What its distances are measured from; empty where it has none. */
  readonly datum: string;
  /** Of its two sides from the datum, mm along the front line; null where its place follows from its neighbours. */
  readonly fromMm: number | null;
  readonly toMm: number | null;
  /** Marks that must stand before. */
  readonly after: readonly string[];
  readonly how: string;
  /** People by the handling guidance; null where the range gives no mass, or nothing is lifted. */
  readonly people: number | null;
  /** Heavier than a team may lift: trolley, skate or hoist. */
  readonly needsAid: boolean;
  readonly massKg: number | null;
}

type Draft = Omit<InstallationStep, 'number'>;

const nothing = {
  mark: '',
  datum: '',
  fromMm: null,
  toMm: null,
  after: [],
  how: '',
  people: null,
  needsAid: false,
  massKg: null,
} as const;

const crewed = (massKg: number | undefined): Pick<Draft, 'people' | 'needsAid' | 'massKg'> => {
  if (massKg === undefined) return { people: null, needsAid: false, massKg: null };
  const { people, needsAid } = crewFor(massKg);
  return { people, needsAid, massKg };
};

const howOf: Readonly<Record<Support, string>> = {
  standing:
    'Set to its marks, level on its feet, line up with its neighbour, join, fix to floor or wall as the fixing schedule says',
  carried: 'Set the spacer bar, slide in between its neighbours, fix to both',
  'drop-in': 'Let into the top, seal, do not connect',
  countertop: 'Stand on the top, fix as its maker says',
};

const holdSteps = (when: 'before' | 'after-standing' | 'end', hasServices: boolean): readonly Draft[] =>
  holdPoints(hasServices)
    .filter((hold) => hold.when === when)
    .map(({ what, how }) => ({ ...nothing, kind: 'hold' as const, what, how }));

/** Marks of the two pieces that a carried one hangs between. */
const neighboursOf = (alternative: FitAlternative, index: number, marks: PieceMarks): readonly string[] => {
  const piece = alternative.pieces[index];
  if (!piece) return [];
  const others = alternative.pieces
    .map((other, at) => ({ other, at }))
    .filter(({ other, at }) => at !== index && other.straight === piece.straight && other.host === undefined);
  const before = others
    .filter(({ other }) => other.toMm <= piece.fromMm + 0.001)
    .sort((one, two) => two.other.toMm - one.other.toMm)[0];
  const after = others
    .filter(({ other }) => other.fromMm >= piece.toMm - 0.001)
    .sort((one, two) => one.other.fromMm - two.other.fromMm)[0];
  return [before, after].flatMap((found) => (found ? [marks.pieces[found.at] ?? ''] : []));
};

const cornerSteps = (alternative: FitAlternative, range: StockRange, marks: PieceMarks): readonly Draft[] =>
  alternative.corners.flatMap(({ treatment, item }, index): Draft[] => {
    if (treatment !== 'corner-unit' && treatment !== 'mitre') return [];
    const unit = range.cornerUnits.find(({ id }) => id === item);
    return [
      {
        ...nothing,
        kind: 'corner',
        mark: marks.corners[index] ?? '',
        what: treatment === 'mitre' ? 'Corner wedge, made to measure' : (unit?.name ?? item ?? 'Corner unit'),
        how: 'Set into the corner first: both straights are measured from it. Check its angle',
        ...crewed(unit?.massKg),
      },
    ];
  });

const pieceSteps = (
  run: Run,
  alternative: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
  support: Support,
): readonly Draft[] => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  return alternative.pieces
    .map((piece, index) => ({ piece, index, item: items.get(piece.item) }))
    .filter(({ item }) => (item?.support ?? 'standing') === support)
    .sort(
      (one, other) =>
        one.piece.straight - other.piece.straight ||
        one.piece.fromMm - other.piece.fromMm ||
        one.index - other.index,
    )
    .map(({ piece, index, item }): Draft => {
      const host = piece.host === undefined ? [] : [marks.pieces[piece.host] ?? ''];
      return {
        ...nothing,
        kind: support,
        mark: marks.pieces[index] ?? '',
        what: item?.name ?? piece.item,
        datum: datumOf(run, piece.straight),
        fromMm: piece.fromMm,
        toMm: piece.toMm,
        after: support === 'carried' ? neighboursOf(alternative, index, marks) : host,
        how: howOf[support],
        ...crewed(item?.massKg),
      };
    });
};

const leftoverHow = {
  filler: 'Cut to the gap as it stands, after the pieces beside it are fixed',
  'made-to-measure': 'Check the gap before it is lifted in; then as a standing piece',
  closes: 'Spread the rest over the joints or the scribe; nothing is placed',
} as const;

const leftoverSteps = (run: Run, alternative: FitAlternative, marks: PieceMarks): readonly Draft[] =>
  alternative.leftovers.map(
    ({ straight, fromMm, toMm, verdict }, index): Draft => ({
      ...nothing,
      kind: 'leftover',
      mark: marks.leftovers[index] ?? '',
      what: { filler: 'Filler', 'made-to-measure': 'Made-to-measure module', closes: 'Rest that closes' }[
        verdict
      ],
      datum: datumOf(run, straight),
      fromMm,
      toMm,
      how: leftoverHow[verdict],
    }),
  );

/** Wedges between the pieces of an arc, once these stand. */
const wedgeSteps = (run: Run, { wedges = [] }: FitAlternative, marks: PieceMarks): readonly Draft[] =>
  wedges.map(
    (wedge, index): Draft => ({
      ...nothing,
      kind: 'leftover',
      mark: marks.wedges[index] ?? '',
      what: arcWedgeName(wedge),
      datum: datumOf(run, wedge.straight),
      fromMm: wedge.fromMm,
      toMm: wedge.toMm,
      how: 'Check what opens between its neighbours, then fit it between them',
    }),
  );

/**
 * The order in which a run is put up (common practice, no source): what stands, at measured distances from the datum,
 * corners first; then fillers and what is made to measure; then what hangs between two neighbours; then, once the tops
 * are fixed, what is let into them and what stands on them; last panels and shelf. Hold points say where other trades
 * come first. People per piece follow the handling guidance of `crewFor`; people on site decide.
 */
export const installationOrder = (
  run: Run,
  runNumber: number,
  alternative: FitAlternative,
  range: StockRange,
  zones: readonly RunZone[] = [],
): readonly InstallationStep[] => {
  const marks = pieceMarks(runNumber, alternative);
  const items = new Map(range.items.map((item) => [item.id, item]));
  const hasServices =
    alternative.pieces.some(({ item }) => (items.get(item)?.services ?? []).length > 0) ||
    zones.some(({ services = [] }) => services.length > 0);
  const of = (support: Support) => pieceSteps(run, alternative, range, marks, support);
  const drafts: readonly Draft[] = [
    ...holdSteps('before', hasServices),
    ...cornerSteps(alternative, range, marks),
    ...of('standing'),
    ...leftoverSteps(run, alternative, marks),
    ...wedgeSteps(run, alternative, marks),
    ...of('carried'),
    ...holdSteps('after-standing', hasServices),
    ...of('drop-in'),
    ...of('countertop'),
    {
      ...nothing,
      kind: 'finish',
      what: 'End panels, upstand and serving shelf',
      how: 'After all tops are joined; brackets as the extras say',
    },
    ...holdSteps('end', hasServices),
  ];
  return drafts.map((draft, index) => ({ number: index + 1, ...draft }));
};
