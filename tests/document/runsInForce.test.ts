import { describe, expect, it } from 'vitest';
import { isSuperseded, runIdsInForce, runNumberOf } from '../../src/document/runsInForce.ts';

const document = {
  sheets: {
    'sheet-a': { id: 'sheet-a' },
    'sheet-b': { id: 'sheet-b', revisionOf: { supersedes: 'sheet-a' } },
    'sheet-c': { id: 'sheet-c' },
  },
  runIds: ['run-1', 'run-2', 'run-3', 'run-4', 'run-5'],
  runs: {
    'run-1': { sheetId: 'sheet-a' },
    'run-2': { sheetId: 'sheet-a' },
    'run-3': { sheetId: 'sheet-c' },
    'run-4': { sheetId: 'sheet-b', carriedFrom: 'run-1' },
    'run-5': { sheetId: 'sheet-b' },
  },
} as never;
const number = (id: string) => runNumberOf(document, id as never);

describe('runs of a project with a revised sheet', () => {
  it('are in force on sheets that nothing supersedes', () => {
    expect(isSuperseded(document, 'sheet-a' as never)).toBe(true);
    expect(isSuperseded(document, 'sheet-b' as never)).toBe(false);
    expect(runIdsInForce(document)).toEqual(['run-3', 'run-4', 'run-5']);
  });

  it('count from 1, a run carried over has one number on both sheets, and one left behind counts on', () => {
    expect(['run-3', 'run-4', 'run-5'].map(number)).toEqual([1, 2, 3]);
    expect(number('run-1')).toBe(2);
    expect(number('run-2')).toBe(5);
    expect(number('run-9')).toBe(0);
  });
});
