import { describe, expect, it } from 'vitest';
import type { RunId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import { partWarnings } from '../../src/quote/partWarnings.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { addRun, at, documentAtFifty, edited } from '../document/drawnDocument.ts';

const runOf = (id: string, yMm: number, changes: Partial<Run> = {}) =>
  addRun([at(0, yMm), at(6000, yMm)], { id, name: id === 'run-1' ? 'Front bar' : 'Back bar', ...changes });
const zone = (id: string, kind: string, fromMm: number, toMm: number, more: object) => ({
  type: 'add-zone',
  zone: {
    id,
    runId: 'run-1',
    kind,
    name: kind === 'bay' ? 'Ice machine' : 'Low section',
    vertexId: 'vertex-1',
    a: at(fromMm, 0),
    b: at(toMm, 0),
    ...more,
  },
});
const documentOf = (...commands: readonly object[]): ProjectDocument => edited(documentAtFifty, ...commands);
const plain = (words: readonly string[]) =>
  words.map((text) => text.replace(/[\u2009\u2060\u00a0\u202f]/g, ' ').replace(/ +/g, ' '));
const warnings = (document: ProjectDocument) => plain(partWarnings(document, 'run-1' as RunId, demoRange));

// The front bar is 700 deep from y = 0 and the back bar's front lies at y = 1 600: an aisle of 900. The demo range's top
// is 40 thick at 900, and its feet turn 25 each way.
describe('what has to be decided before a run is built', () => {
  const clearance = { beforeMm: 0, afterMm: 0, heightMm: 800, doorSwingMm: 600 };

  it('is nothing for a bay that goes', () => {
    expect(
      warnings(
        documentOf(runOf('run-1', 0), runOf('run-2', 1600), zone('zone-1', 'bay', 1000, 1600, { clearance })),
      ),
    ).toEqual([]);
  });

  it('names the door that meets the back bar, and the height that the top does not leave', () => {
    const tooMuch = { ...clearance, heightMm: 861, doorSwingMm: 901 };
    expect(
      warnings(
        documentOf(
          runOf('run-1', 0),
          runOf('run-2', 1600),
          zone('zone-1', 'bay', 1000, 1600, { clearance: tooMuch }),
        ),
      ),
    ).toEqual([
      'Ice machine: its door swings 901 mm, the aisle behind is 900 mm.',
      'Ice machine: needs 861 mm under the top, where 860 mm are.',
    ]);
  });

  it('names a service that is set out beside its equipment, or above the underside of the top', () => {
    const service = (offsetMm: number, heightMm: number) => ({
      kind: 'waste',
      offsetMm,
      heightMm,
      connection: 'DN 50',
    });
    const services = [service(600, 860), service(640, 350), service(300, 870)];
    expect(warnings(documentOf(runOf('run-1', 0), zone('zone-1', 'bay', 1000, 1600, { services })))).toEqual([
      'Ice machine: its waste is set out 640 mm from its left end and 350 mm high; the equipment is 600 mm wide, under the top.',
      'Ice machine: its waste is set out 300 mm from its left end and 870 mm high; the equipment is 600 mm wide, under the top.',
    ]);
  });

  it('leaves it to the access officer which rule holds for a low section', () => {
    const [only, ...others] = warnings(
      documentOf(runOf('run-1', 0), zone('zone-1', 'low', 1000, 2000, { topHeightMm: 850 })),
    );
    expect(others).toEqual([]);
    expect(only).toMatch(
      /^Low section: 1 000 mm long, top at 850 mm\. It does not surely meet Approved Document M vol\. 2, 3\.6/,
    );
    expect(only).toMatch(/for the local code and the access officer\.$/);
  });

  it('says what the floor asks of the feet', () => {
    const levels = {
      topHeightMm: null,
      shelfHeightsMm: [],
      floorAtStartMm: 0,
      floorAtEndMm: -60,
      raisedFloorBehindMm: 0,
    };
    expect(warnings(documentOf(runOf('run-1', 0, { levels })))).toEqual([
      'Front bar: its floor asks 5 mm more of the feet than they turn (25 mm each way).',
    ]);
  });
});
