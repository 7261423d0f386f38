import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { runFootrail } from '../../src/cli/runFootrail.ts';

/** ajv, a general-purpose validator of JSON Schema 2020-12, judges the published schemas. */
const validatorOf = async (contract: string) => {
  const { exitCode, stdout } = await runFootrail(['schema', contract, '--json']);
  expect(exitCode).toBe(0);
  return new Ajv2020({ strict: false }).compile(JSON.parse(stdout));
};

const problem = {
  depthMm: 700,
  straights: [{ lengthMm: 6248 }],
  ends: [{ kind: 'wall' }, { kind: 'exposed', giveMm: [50, 100] }],
  stock: [{ id: 'm600', widthMm: 600, support: 'standing' }],
  fillerMaxMm: 150,
};

describe('footrail schema', () => {
  it('publishes the fitting problem', async () => {
    const validate = await validatorOf('fit');
    expect(validate(problem), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...problem, depthMm: -700 })).toBe(false);
    expect(validate({ ...problem, stock: [{ id: 'm600', widthMm: 600, support: 'floating' }] })).toBe(false);
    expect(validate({ ...problem, ends: [{ kind: 'wall' }] })).toBe(false);
  });

  it('publishes the way in', async () => {
    const validate = await validatorOf('access');
    const piece = { id: 'top', lengthMm: 2400, widthMm: 600, heightMm: 300, massKg: 60 };
    const doorway = { kind: 'doorway', widthMm: 800, heightMm: 2000 };
    expect(validate({ obstacles: [doorway], pieces: [piece] }), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ obstacles: [{ ...doorway, kind: 'moat' }], pieces: [piece] })).toBe(false);
    expect(validate({ obstacles: [doorway], pieces: [{ ...piece, massKg: 'heavy' }] })).toBe(false);
  });

  it('publishes the reading of a sheet', async () => {
    const validate = await validatorOf('read');
    const answer = {
      pages: 1,
      page: 1,
      sheet: { widthMm: 841, heightMm: 594, name: 'A1', rotation: 0, userUnit: 1 },
      linework: { segments: 3731, curves: 12 },
      text: 210,
      layers: [],
      scale: { ratio: null, relativeUncertainty: null, status: 'none', evidence: [] },
    };
    expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...answer, scale: { ...answer.scale, status: 'perhaps' } })).toBe(false);
  });

  it('names the contracts that there are', async () => {
    const { exitCode, stdout } = await runFootrail(['schema', 'quote', '--json']);
    expect(exitCode).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: 'unknown-contract', path: 'quote' } });
  });
});
