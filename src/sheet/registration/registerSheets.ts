import { boxCorners } from '../../geometry/box.ts';
import { distanceBetween } from '../../geometry/vector.ts';
import { type DistinctLines, distinctLines } from './distinctLines.ts';
import { type Candidate, judgeRegistration } from './judgeRegistration.ts';
import { layOnLines, lineTree } from './layOnLines.ts';
import { matchEnds } from './matchEnds.ts';
import { isPaperFixed, paperFixedTransforms } from './paperFixed.ts';
import { supportMaps, supportOf } from './registrationSupport.ts';
import type { RegistrationOptions, RegistrationSheet, SheetRegistration } from './sheetRegistration.ts';
import { applySimilarity, type Similarity, similarityScale } from './similarity.ts';
import { similarityVotes } from './similarityVotes.ts';

/** Fewer distinct lines than this say nothing. */
const LEAST_LINES = 12;

const MOST_VOTED = 160;

/** Candidates that are laid on the lines and looked at in full. */
const MOST_LAID = 24;

/** Similarities that take the old corners nearer together than this share of the new diagonal are one. */
const SAME_PLACE = 1 / 1000;

const STEPS = 6;

type Judged = Omit<Candidate, 'isPaperFixed'>;

/**
 * How a revised sheet lies to the old one: the similarity under which their linework agrees, by itself.
 *
 * Pairs of lines vote for turn, scale and place ({@link similarityVotes}); each candidate is laid on the lines and
 * judged by how much of both sheets' distinct linework it explains. Frame and title block, which stay on paper while
 * the plan moves, are known as such and do not win over a moved plan. The work is bounded, depends on neither clock
 * nor chance, and the answer says when it is not sure.
 *
 * @returns `none` where there is too little linework or nothing agrees: then two picked points are needed.
 */
export const registerSheets = (
  oldSheet: RegistrationSheet,
  newSheet: RegistrationSheet,
  { onProgress = () => undefined, shouldStop = () => false }: RegistrationOptions = {},
): SheetRegistration => {
  let done = 0;
  const isStopped = (): boolean => {
    onProgress(++done, STEPS);
    return shouldStop();
  };
  const old = distinctLines(oldSheet);
  if (isStopped()) return STOPPED;
  const next = distinctLines(newSheet);
  const empty = tooFewLines(old, 'old') ?? tooFewLines(next, 'new');
  if (empty) return empty;
  if (isStopped()) return STOPPED;

  const voted = similarityVotes(old, next, MOST_VOTED);
  if (isStopped()) return STOPPED;

  const tree = lineTree(next);
  const maps = supportMaps(old, next, oldSheet.viewBox, newSheet.viewBox);
  const starts = [
    ...voted.map((start) => matchEnds(old, next, tree, start)?.transform ?? start),
    ...paperFixedTransforms(oldSheet.viewBox, newSheet.viewBox),
  ];
  const ranked = starts
    .filter(isUsable)
    .map((transform) => ({ transform, score: supportOf(maps, transform, 5).score }))
    .sort((p, q) => q.score - p.score);
  const chosen = distinct(ranked, old, next, MOST_LAID);
  if (isStopped()) return STOPPED;

  const reaches = [1 / 1500, 1 / 3000].map((share) => share * next.diagonal);
  const laid: Judged[] = [];
  for (const { transform } of chosen) {
    const result = layOnLines(maps.old, next, tree, transform, reaches, 4);
    const [before, after] = [transform, result?.transform ?? transform].map((each) => ({
      transform: each,
      support: supportOf(maps, isUsable(each) ? each : transform),
    })) as [Judged, Judged];
    laid.push(after.support.score > before.support.score ? after : before);
  }
  const candidates = distinct(
    laid
      .map((candidate) => ({ ...candidate, score: candidate.support.score }))
      .sort((p, q) => q.score - p.score),
    old,
    next,
    MOST_LAID,
  ).map((candidate) => ({
    ...candidate,
    isPaperFixed: isPaperFixed(candidate.transform, oldSheet.viewBox, newSheet.viewBox),
  }));
  if (isStopped()) return STOPPED;

  const answer = judgeRegistration({ old, next, tree, maps, candidates });
  onProgress(STEPS, STEPS);
  return answer;
};

const STOPPED: SheetRegistration = {
  certainty: 'none',
  reasons: [{ code: 'stopped', message: 'Laying the sheets on one another was stopped.' }],
};

const tooFewLines = (lines: DistinctLines, which: 'old' | 'new'): SheetRegistration | null =>
  lines.count >= LEAST_LINES
    ? null
    : {
        certainty: 'none',
        reasons: [
          {
            code: 'no-linework',
            message: `The ${which} sheet has ${lines.count} drawn lines to go by, where at least ${LEAST_LINES} are needed; it may be blank or a scan. Pick two places on both sheets.`,
          },
        ],
      };

const isUsable = (transform: Similarity): boolean => {
  const scale = similarityScale(transform);
  return scale > 0.05 && scale < 20 && Number.isFinite(transform.x0) && Number.isFinite(transform.y0);
};

/** The farthest apart that two similarities take a corner of the old linework. */
const apartPt = (old: DistinctLines, p: Similarity, q: Similarity): number =>
  Math.max(
    ...boxCorners(old.box).map((corner) =>
      distanceBetween(applySimilarity(p, corner), applySimilarity(q, corner)),
    ),
  );

const distinct = <T extends { readonly transform: Similarity }>(
  ranked: readonly T[],
  old: DistinctLines,
  next: DistinctLines,
  most: number,
): T[] => {
  const kept: T[] = [];
  for (const each of ranked) {
    if (kept.length === most) break;
    if (kept.every((other) => apartPt(old, each.transform, other.transform) > SAME_PLACE * next.diagonal))
      kept.push(each);
  }
  return kept;
};
