import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import type { FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { longRun } from '../oracles/longRun.ts';
import { randomFitProblem } from '../oracles/randomFitProblem.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

// biome-ignore lint/suspicious/noExplicitAny: a tampered answer may hold anything, that is what is tested.
type Loose = any;

/** A deep copy in which anything may be written. */
const copy = (answer: FitAnswer): Loose => structuredClone(answer);

const problem = longRun();
const answer = fitRun(problem, { alternatives: 1 });
const codes = (tampered: FitAnswer, of = problem) => checkFit(of, tampered).map(({ code }) => code);
const tamper = (change: (alternative: Loose) => void) => {
  const tampered = copy(answer);
  change(tampered.alternatives[0]);
  return codes(tampered);
};
const indexOf = (alternative: Loose, test: (piece: Loose) => boolean): number =>
  alternative.pieces.findIndex(test);

describe('the checker', () => {
  it('accepts the fit of a 30 m run with 4 corners', () => {
    expect(checkFit(problem, answer)).toEqual([]);
  });

  it.each([
    [
      'a piece moved',
      'wrong-joint',
      (a: Loose) => {
        a.pieces[1].fromMm += 1;
        a.pieces[1].toMm += 1;
      },
    ],
    [
      'a piece narrowed',
      'wrong-width',
      (a: Loose) => {
        a.pieces[0].toMm -= 1;
      },
    ],
    [
      'a piece left out',
      'leftover-missing',
      (a: Loose) => {
        a.pieces.splice(0, 1);
      },
    ],
    [
      'a leftover left out',
      'leftover-missing',
      (a: Loose) => {
        a.leftovers.splice(0, 1);
      },
    ],
    [
      'a leftover given twice',
      'leftover-misplaced',
      (a: Loose) => {
        a.leftovers.push(a.leftovers[0]);
      },
    ],
    [
      'a leftover in the middle of a piece',
      'leftover-misplaced',
      (a: Loose) => {
        a.leftovers.push({
          straight: 0,
          fromMm: 600,
          toMm: 700,
          widthMm: 100,
          verdict: 'filler',
          confirmed: false,
        });
      },
    ],
    [
      'a verdict changed',
      'wrong-verdict',
      (a: Loose) => {
        a.leftovers[0].verdict = 'made-to-measure';
      },
    ],
    [
      'a width that is not to - from',
      'wrong-width',
      (a: Loose) => {
        a.leftovers[0].widthMm += 1;
      },
    ],
    [
      'an unknown item',
      'unknown-item',
      (a: Loose) => {
        a.pieces[0].item = 'nothing';
      },
    ],
    [
      'another item than wanted',
      'wrong-station',
      (a: Loose) => {
        const at = indexOf(a, (p) => p.wanted === 'w05');
        a.pieces[at].wanted = 'w06';
      },
    ],
    [
      'a wish that nobody has',
      'unknown-wanted',
      (a: Loose) => {
        a.pieces[0].wanted = 'w99';
      },
    ],
    [
      'a wish answered twice',
      'wanted-twice',
      (a: Loose) => {
        a.pieces[0].wanted = 'w05';
      },
    ],
    [
      'wanted stock without its wish',
      'not-fill',
      (a: Loose) => {
        const at = indexOf(a, (p) => p.wanted === 'w05');
        delete a.pieces[at].wanted;
      },
    ],
    [
      'a hosted piece without its host',
      'wrong-host',
      (a: Loose) => {
        const at = indexOf(a, (p) => p.host !== undefined);
        delete a.pieces[at].host;
      },
    ],
    [
      'a hosted piece on a far host',
      'host-margin',
      (a: Loose) => {
        const at = indexOf(a, (p) => p.host !== undefined);
        const host = a.pieces[a.pieces[at].host];
        a.pieces[at].host = indexOf(
          a,
          (p) => p.straight === host.straight && p !== host && p.host === undefined && p.item.startsWith('M'),
        );
      },
    ],
    [
      'a corner treatment changed',
      'outside',
      (a: Loose) => {
        a.corners[0] = {
          treatment: a.corners[0].treatment === 'first-through' ? 'second-through' : 'first-through',
        };
      },
    ],
    [
      'a mitre that is not pinned',
      'mitre-not-pinned',
      (a: Loose) => {
        a.corners[0] = { treatment: 'mitre' };
      },
    ],
    [
      'an unknown corner unit',
      'unknown-corner-unit',
      (a: Loose) => {
        a.corners[0] = { treatment: 'corner-unit', item: 'none' };
      },
    ],
    [
      'a corner left out',
      'corner-count',
      (a: Loose) => {
        a.corners.pop();
      },
    ],
    [
      'a score embellished',
      'wrong-score',
      (a: Loose) => {
        a.score.leftoverMm -= 1;
      },
    ],
    [
      'a price changed',
      'wrong-score',
      (a: Loose) => {
        a.score.price += 0.1;
      },
    ],
  ] as const)('refuses %s as %s', (_, code, change) => {
    expect(tamper(change)).toContain(code);
  });

  it('refuses an infeasible answer with a fit in it', () => {
    expect(codes({ ...answer, status: 'infeasible' })).toEqual(['wrong-status']);
  });

  it('refuses a gap at an exposed end and an empty stretch between two', () => {
    const exposed = { kind: 'exposed' as const };
    const short = {
      ...problem,
      straights: [{ lengthMm: 1_200 }],
      corners: [],
      ends: [exposed, exposed] as const,
      wanted: [],
      allowances: {},
    };
    const good = fitRun(short, { alternatives: 1 });
    expect(codes(good, short)).toEqual([]);
    const atWall = {
      ...short,
      straights: [{ lengthMm: 1_250 }],
      ends: [exposed, { kind: 'wall' as const }] as const,
    };
    const moved = copy(fitRun(atWall, { alternatives: 1 }));
    for (const piece of moved.alternatives[0].pieces) {
      piece.fromMm += 5;
      piece.toMm += 5;
    }
    expect(codes(moved, atWall)).toContain('leftover-at-exposed-end');
    const empty = copy(good);
    empty.alternatives[0].pieces = [];
    expect(codes(empty, short)).toContain('exposed-stretch-empty');
  });

  it('notices any single place moved by a millimetre in random fits', () => {
    const size = {
      stepMm: 10,
      straights: 2,
      lengthMm: [600, 2_400],
      widthMm: [240, 720],
      stock: 3,
      wanted: 3,
      oddAngles: true,
    } as const;
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = randomFitProblem(seededRandom(seed), size);
      const found = fitRun(random, { alternatives: 1 });
      const parts =
        (found.alternatives[0]?.pieces.length ?? 0) + (found.alternatives[0]?.leftovers.length ?? 0);
      for (let at = 0; at < parts; at += 1) {
        const tampered = copy(found);
        const { pieces, leftovers } = tampered.alternatives[0];
        const part = at < pieces.length ? pieces[at] : leftovers[at - pieces.length];
        part.fromMm += 1;
        expect(checkFit(random, tampered), `seed ${seed}, part ${at}`).not.toEqual([]);
      }
    }
  });
});
