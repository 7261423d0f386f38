import { boxCorners } from '../../geometry/box.ts';
import { distanceBetween } from '../../geometry/vector.ts';
import type { DistinctLines } from './distinctLines.ts';
import { type Laid, type LineTree, layOnLines } from './layOnLines.ts';
import type { LineSamples } from './lineSamples.ts';
import { type Support, type SupportMaps, supportApart, supportOf } from './registrationSupport.ts';
import type { RegistrationReason, RivalRegistration, SheetRegistration } from './sheetRegistration.ts';
import { fullestStrip, type SheetStrip } from './sheetStrip.ts';
import { applySimilarity, type Similarity, similarityAngleRad } from './similarity.ts';

/** A way to lay the sheets on one another, and what it explains. */
export interface Candidate {
  readonly transform: Similarity;
  readonly support: Support;
  /** Frame and title block stay where they are on paper under it. */
  readonly isPaperFixed: boolean;
}

/** Below this share of both sheets nothing is claimed. */
const LEAST_SCORE = 0.08;

/** From this share of the old sheet on, an answer may be sure. */
const SURE_SHARE = 0.45;

/** Where the paper stays in place, this share of the linework beside the title block must agree as well. */
const SURE_INSIDE = 0.4;

/** Lines that must lie on lines for an answer to be sure. */
const SURE_LINES = 25;

/** What the answer alone explains must be this share of all that it explains, and the rival's own this much less. */
const LEAST_ONLY = 0.15;
const MOST_RIVAL = 0.35;

/** A title block that stayed on paper explains itself: it may weigh this much against a plan that moved. */
const MOST_TITLE_RIVAL = 2.5;

/** A moved plan wins over what stays on paper where it explains this much as much that the other does not. */
const MOVED_WINS = 0.6;
const MOVED_WINS_OVER_TITLE = 0.2;

/** Evidence of which this share stands in a strip along the page's edge is frame and title block. */
const TITLE_STRIP = 0.85;

/** Upright within one degree; as good within three percent. */
const UPRIGHT = 0.0175;
const EQUALLY = 0.97;

/** At least this share of the old linework must be shown on the new sheet for an answer to be sure. */
const LEAST_SHOWN = 0.15;

/** Chooses among candidates, best first, and says how sure the choice is and why. */
export const judgeRegistration = (input: {
  readonly old: DistinctLines;
  readonly next: DistinctLines;
  readonly tree: LineTree;
  readonly maps: SupportMaps;
  readonly candidates: readonly Candidate[];
}): SheetRegistration => {
  const { old, next, tree, maps, candidates } = input;
  const best = chooseBest(maps, candidates);
  if (!best || best.support.score < LEAST_SCORE) return nothingMatched(best?.support.score ?? 0);
  const reaches = [1 / 3000, 1 / 4000, 1 / 4000, 1 / 5000].map((share) => share * next.diagonal);
  const laid = layOnLines(maps.old, next, tree, best.transform, [...reaches, reaches[3]!, reaches[3]!]);
  if (!laid?.covariance) return nothingMatched(best.support.score);
  const support = supportOf(maps, laid.transform);
  const answer: Candidate = { ...best, transform: laid.transform, support };
  const rivals = candidates
    .filter((candidate) => candidate !== best)
    .map((candidate) => ({
      isTitle: isTitleAgainst(maps, candidate, answer),
      rival: rivalOf(old, maps, answer, candidate),
    }));
  const strongest = rivals.reduce<(typeof rivals)[number] | null>(
    (most, each) => (!most || threat(each) > threat(most) ? each : most),
    null,
  );
  const uncertainty = { centre: laid.centre, covariance: laid.covariance };
  const reasons = doubts({ answer, laid, strongest, maps });
  return {
    certainty: reasons.length === 0 ? 'sure' : 'unsure',
    transform: laid.transform,
    uncertainty,
    reasons: reasons.length === 0 ? [agrees(support, laid, strongest?.rival ?? null)] : reasons,
    oldShare: support.oldShare,
    newShare: support.newShare,
    matchedLines: laid.matchedLines,
    residualPt: laid.residualPt,
    rival: strongest?.rival ?? null,
  };
};

/** The best by score; but where that stays on paper, a moved plan that explains much else. */
const chooseBest = (maps: SupportMaps, candidates: readonly Candidate[]): Candidate | undefined => {
  const [most] = candidates;
  // Of ways that explain as much, the one that leaves the sheet upright: revisions seldom turn a plan.
  const first =
    candidates.find(
      ({ transform, support }) =>
        Math.abs(similarityAngleRad(transform)) < UPRIGHT && support.score > EQUALLY * most!.support.score,
    ) ?? most;
  if (!first?.isPaperFixed) return first;
  const moved = candidates.find((candidate) => {
    if (candidate.isPaperFixed || candidate.support.score < LEAST_SCORE) return false;
    const { onlyFirst, onlySecond } = supportApart(maps, first.support, candidate.support);
    const least = isTitleAgainst(maps, first, candidate) ? MOVED_WINS_OVER_TITLE : MOVED_WINS;
    return onlySecond > least * onlyFirst;
  });
  return moved ?? first;
};

/** Whether what one candidate alone explains is frame and title block, and what the other alone explains is not. */
const isTitleAgainst = (maps: SupportMaps, fixed: Candidate, moved: Candidate): boolean => {
  const [mine, others] = [fixed.support.oldWorth, moved.support.oldWorth];
  const fixedShare = fullestStrip(maps.old, maps.oldBox, (i) => Math.max(0, mine[i]! - others[i]!)).share;
  const movedShare = fullestStrip(maps.old, maps.oldBox, (i) => Math.max(0, others[i]! - mine[i]!)).share;
  return fixedShare >= TITLE_STRIP && movedShare < TITLE_STRIP;
};

const rivalOf = (
  old: DistinctLines,
  maps: SupportMaps,
  answer: Candidate,
  candidate: Candidate,
): RivalRegistration => {
  const { onlyFirst, onlySecond } = supportApart(maps, answer.support, candidate.support);
  const all = (answer.support.oldTold + answer.support.newTold) / 2;
  return {
    transform: candidate.transform,
    supportRatio: candidate.support.score / answer.support.score,
    onlyAnswer: onlyFirst / all,
    onlyRival: onlySecond / all,
    apartPt: Math.max(
      ...boxCorners(old.box).map((corner) =>
        distanceBetween(
          applySimilarity(answer.transform, corner),
          applySimilarity(candidate.transform, corner),
        ),
      ),
    ),
  };
};

interface Rival {
  readonly rival: RivalRegistration;
  /** What it alone explains is frame and title block. */
  readonly isTitle: boolean;
}

/** How much a rival speaks against the answer: above 1 it leaves doubt. */
const threat = ({ rival, isTitle }: Rival): number => {
  const only = Math.max(rival.onlyAnswer, 1e-9);
  return Math.max(rival.onlyRival / only / (isTitle ? MOST_TITLE_RIVAL : MOST_RIVAL), LEAST_ONLY / only);
};

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const doubts = (about: {
  readonly answer: Candidate;
  readonly laid: Laid;
  readonly strongest: Rival | null;
  readonly maps: SupportMaps;
}): RegistrationReason[] => {
  const { answer, laid, strongest, maps } = about;
  const found: RegistrationReason[] = [];
  const { oldShare, oldShown, oldWorth } = answer.support;
  if (oldShare < SURE_SHARE)
    found.push({
      code: 'little-matched',
      message: `Only ${percent(oldShare)} of the old sheet's linework is found on the new one, where ${percent(SURE_SHARE)} is needed to be sure.`,
    });
  if (oldShown < LEAST_SHOWN)
    found.push({
      code: 'little-shown',
      message: `Only ${percent(oldShown)} of the old sheet's linework would be shown on the new one.`,
    });
  const strip = fullestStrip(maps.old, maps.oldBox, (i) => oldWorth[i]!);
  if (
    strip.share >= TITLE_STRIP ||
    (answer.isPaperFixed && shareOutside(maps.old, answer, strip) < SURE_INSIDE)
  )
    found.push({
      code: 'only-title-matched',
      message:
        'What agrees lies along the edges of the page: it may be the title block alone and not the plan.',
    });
  if (laid.matchedLines < SURE_LINES)
    found.push({
      code: 'few-lines',
      message: `Only ${laid.matchedLines} lines agree, where ${SURE_LINES} are needed to be sure.`,
    });
  if (strongest && threat(strongest) > 1)
    found.push({
      code: 'rival',
      message: `Another way to lay the sheets on one another explains ${percent(strongest.rival.supportRatio)} as much, up to ${Math.round(strongest.rival.apartPt)} pt away: ${strongest.isTitle ? 'frame and title block stayed while the plan may have moved' : 'the plan may be symmetric or repeat itself'}.`,
    });
  return found;
};

/** Share of the linework outside a strip that an answer finds on the other sheet. */
const shareOutside = (samples: LineSamples, { support }: Candidate, strip: SheetStrip): number => {
  let [all, met] = [0, 0];
  for (let i = 0; i < samples.count; i++) {
    if (strip.holds(i)) continue;
    all += samples.weight[i]!;
    if (support.oldWorth[i]! > 0) met += samples.weight[i]!;
  }
  return all > 0 ? met / all : 0;
};

const agrees = (support: Support, laid: Laid, rival: RivalRegistration | null): RegistrationReason => ({
  code: 'agrees',
  message: `${percent(support.oldShare)} of the old sheet's linework is found on the new one: ${laid.matchedLines} lines, within ${laid.residualPt.toFixed(2)} pt.${rival ? ` The next best way explains ${percent(rival.supportRatio)} as much.` : ''}`,
});

const nothingMatched = (score: number): SheetRegistration => ({
  certainty: 'none',
  reasons: [
    {
      code: 'nothing-matched',
      message: `The sheets have little in common: the best way to lay them on one another explains ${percent(score)} of their linework. Pick two places on both sheets.`,
    },
  ],
});
