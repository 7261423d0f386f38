import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { checkWayIn } from '../../src/access/checkWayIn.ts';
import { parseWayIn } from '../../src/access/wayInContract.ts';
import { wayInSchema } from '../../src/access/wayInSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const door = { kind: 'doorway', widthMm: 800, heightMm: 2000 };
const piece = { id: 'a', lengthMm: 2400, widthMm: 600, heightMm: 900, massKg: 40 };
const parsed = (obstacles: unknown, pieces: unknown = [piece]) => parseWayIn({ obstacles, pieces });

describe('reading a way in', () => {
  it('accepts every obstacle of the contract', () => {
    const obstacles = [
      door,
      { kind: 'passage', widthMm: 1200, heightMm: 2400 },
      { kind: 'turn', fromMm: 1200, toMm: 1000, heightMm: 2400, angleDeg: 60 },
      {
        kind: 'lift',
        doorWidthMm: 800,
        doorHeightMm: 2100,
        carWidthMm: 1100,
        carDepthMm: 1400,
        carHeightMm: 2200,
        ratedKg: 630,
      },
      { kind: 'stair', widthMm: 1000, landingMm: 1200, headroomMm: 2000 },
    ];
    const result = parsed(obstacles);
    expect(result).toMatchObject({ ok: true, wayIn: { obstacles } });
  });

  it.each([
    [null, 'wrong-type', ''],
    ['way', 'wrong-type', ''],
    [{}, 'missing-field', 'obstacles'],
    [{ obstacles: [door] }, 'missing-field', 'pieces'],
    [{ obstacles: {}, pieces: [] }, 'wrong-type', 'obstacles'],
    [{ obstacles: [{ kind: 'moat' }], pieces: [] }, 'unknown-obstacle-kind', 'obstacles[0].kind'],
    [{ obstacles: [{}], pieces: [] }, 'unknown-obstacle-kind', 'obstacles[0].kind'],
    [{ obstacles: [door, 7], pieces: [] }, 'wrong-type', 'obstacles[1]'],
    [{ obstacles: [{ ...door, widthMm: 0 }], pieces: [] }, 'number-too-small', 'obstacles[0].widthMm'],
    [{ obstacles: [{ ...door, widthMm: -800 }], pieces: [] }, 'number-too-small', 'obstacles[0].widthMm'],
    [{ obstacles: [{ ...door, widthMm: 1e9 }], pieces: [] }, 'number-too-large', 'obstacles[0].widthMm'],
    [{ obstacles: [{ ...door, widthMm: '800' }], pieces: [] }, 'wrong-type', 'obstacles[0].widthMm'],
    [{ obstacles: [{ ...door, widthMm: Number.NaN }], pieces: [] }, 'wrong-type', 'obstacles[0].widthMm'],
    [
      { obstacles: [{ ...door, widthMm: Number.POSITIVE_INFINITY }], pieces: [] },
      'wrong-type',
      'obstacles[0].widthMm',
    ],
    [
      { obstacles: [{ kind: 'doorway', widthMm: 800 }], pieces: [] },
      'missing-field',
      'obstacles[0].heightMm',
    ],
    [{ obstacles: [], pieces: [{ ...piece, id: '' }] }, 'empty-text', 'pieces[0].id'],
    [{ obstacles: [], pieces: [{ ...piece, massKg: -1 }] }, 'number-too-small', 'pieces[0].massKg'],
    [{ obstacles: [], pieces: [{ ...piece, keepUpright: 'yes' }] }, 'wrong-type', 'pieces[0].keepUpright'],
    [
      { obstacles: [], pieces: [{ ...piece, keepUpright: true, mayGoOnEnd: true }] },
      'contradictory-handling',
      'pieces[0].keepUpright',
    ],
    [{ obstacles: [{ ...door, leafMm: 800 }], pieces: [] }, 'nothing-left-of-opening', 'obstacles[0].leafMm'],
    [
      { obstacles: [{ kind: 'turn', fromMm: 1, toMm: 1, heightMm: 1, angleDeg: 180 }], pieces: [] },
      'number-too-large',
      'obstacles[0].angleDeg',
    ],
    [
      {
        obstacles: [{ kind: 'stair', widthMm: 1, landingMm: 1, headroomMm: 1, landingTurnDeg: 45 }],
        pieces: [],
      },
      'value-not-allowed',
      'obstacles[0].landingTurnDeg',
    ],
  ])('refuses %j as %s at "%s"', (value, code, path) => {
    const result = parseWayIn(value);
    expect(result).toMatchObject({ ok: false, error: { code, path } });
    if (!result.ok) expect(result.error.message.length).toBeGreaterThan(10);
  });

  it('takes a piece without width, the textbook ladder, and a clear width where there is no wall', () => {
    const ladder = { ...piece, lengthMm: 2828, widthMm: 0, keepUpright: true };
    const corner = { kind: 'turn', fromMm: 1000, toMm: 1000, heightMm: 999_999 };
    const result = parsed([corner], [ladder]);
    if (!result.ok) throw new Error(JSON.stringify(result.error));
    // (1000^(2/3) + 1000^(2/3))^(3/2) = 2828.43, the ladder of every calculus book.
    expect(checkWayIn(result.wayIn).pieces[0]).toMatchObject({ passes: true, longestMm: 2828.427 });
    expect(parsed([corner], [{ ...ladder, widthMm: -1 }])).toMatchObject({ ok: false });
    expect(parsed([{ ...corner, fromMm: 1_000_001 }], [])).toMatchObject({ ok: false });
  });

  it('names the fields that it does not know, since a misspelt one would have no effect', () => {
    const result = parseWayIn({
      obstacles: [{ ...door, uncertainty: 20 }],
      pieces: [piece, { ...piece, upright: true }],
      notes: 'rear yard',
    });
    expect(result).toMatchObject({
      ok: true,
      unknownFields: ['notes', 'obstacles[0].uncertainty', 'pieces[1].upright'],
    });
  });

  it('has a JSON Schema, made from the definitions that validate', () => {
    const schema = z.toJSONSchema(wayInSchema, { io: 'input' });
    expect(schema).toMatchObject({ type: 'object', required: ['obstacles', 'pieces'] });
    expect(JSON.stringify(schema)).toContain('side-doorway');
  });

  it('never throws, whatever it is given', () => {
    const anything = fc.anything({
      withBigInt: true,
      withDate: true,
      withMap: true,
      withNullPrototype: true,
    });
    fc.assert(
      fc.property(fc.oneof(anything, fc.record({ obstacles: anything, pieces: anything })), (value) => {
        const result = parseWayIn(value);
        if (!result.ok) expect(result.error.code).toMatch(/^[a-z]+(-[a-z]+)*$/);
      }),
      { numRuns: campaignSize({ sample: 500, full: 20_000 }), seed: 11 },
    );
  });

  it('answers in plain, finite JSON whatever it lets in', () => {
    const mm = fc.oneof(
      fc.constantFrom(1e-9, 0.001, 1, 99_999, 100_000),
      fc.double({ min: 1e-6, max: 100_000, noNaN: true }),
    );
    const optional = (value: fc.Arbitrary<number>) => fc.option(value, { nil: undefined });
    const anyTurn = fc.record({
      kind: fc.constant('turn'),
      fromMm: mm,
      toMm: mm,
      heightMm: mm,
      angleDeg: optional(fc.double({ min: 1e-6, max: 170, noNaN: true, minExcluded: true })),
      fromLegMm: optional(mm),
      toLegMm: optional(mm),
    });
    const anySide = fc.record({
      kind: fc.constant('side-doorway'),
      passageMm: mm,
      widthMm: mm,
      heightMm: mm,
      wallMm: optional(mm),
    });
    const anyLift = fc.record({
      kind: fc.constant('lift'),
      doorWidthMm: mm,
      doorHeightMm: mm,
      carWidthMm: mm,
      carDepthMm: mm,
      carHeightMm: mm,
      ratedKg: mm,
    });
    const anyStair = fc.record({
      kind: fc.constant('stair'),
      widthMm: mm,
      landingMm: mm,
      headroomMm: mm,
      pitchDeg: optional(fc.double({ min: 0, max: 60, noNaN: true })),
      landingTurnDeg: fc.constantFrom(undefined, 0, 90, 180),
    });
    const anyDoor = fc.record({ kind: fc.constant('doorway'), widthMm: mm, heightMm: mm });
    const anyPiece = fc.record({
      id: fc.constant('p'),
      lengthMm: mm,
      widthMm: mm,
      heightMm: mm,
      massKg: fc.double({ min: 0, max: 5000, noNaN: true }),
      keepUpright: fc.constantFrom(undefined, true, false),
    });
    fc.assert(
      fc.property(
        fc.array(fc.oneof(anyDoor, anyTurn, anySide, anyStair, anyLift), { maxLength: 3 }),
        anyPiece,
        (obstacles, one) => {
          const result = parsed(obstacles, [one]);
          if (!result.ok) throw new Error(JSON.stringify(result.error));
          const answer = checkWayIn(result.wayIn, { drawings: true });
          const text = JSON.stringify(answer, (_key, value) => {
            if (typeof value === 'number' && !Number.isFinite(value))
              throw new Error('a number is not finite');
            return value;
          });
          expect(JSON.parse(text).pieces).toHaveLength(1);
          const first = answer.pieces[0]!;
          expect(first.longestMm).toBeGreaterThanOrEqual(0);
          expect(Object.is(first.marginMm, -0)).toBe(false);
        },
      ),
      { numRuns: campaignSize({ sample: 150, full: 5000 }), seed: 12 },
    );
  }, 600_000);
});
