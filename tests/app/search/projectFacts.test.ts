import { describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../../src/app/demo/demoPlanTruth.ts';
import { projectFactsOf } from '../../../src/app/search/projectFacts.ts';
import { runPictureOf } from '../../../src/app/search/runPicture.ts';
import type { RunId, SheetId, StationId, VertexId, ZoneId } from '../../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument, type Zone } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { changesOf, projectIdOf } from '../../archive/editedSteps.ts';

const sheetId = 'sheet-1' as SheetId;
const runId = 'run-1' as RunId;
const sha256 = 'ab'.repeat(32);

/** The front bar's two straights as they are dimensioned on the demo plan. */
const drawnMm = [2680, 8700] as const;

/** The demo's front bar as it is dimensioned on its plan, traced without a slip. */
const frontBar = (): ProjectDocument => {
  const { frontBar: bar, ratio } = demoPlanTruth;
  const document = emptyDocument('Quay Street Tap', { id: demoRange.id, version: 1 });
  return {
    ...document,
    job: {
      ...document.job,
      questions: [{ question: 'Is the soffit level?', askedOn: '', answer: '', answeredOn: '' }],
    },
    sheetIds: [sheetId],
    sheets: {
      [sheetId]: {
        id: sheetId,
        name: 'A-101',
        planSha256: sha256,
        planFileName: 'Ground floor.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: { ratio, relativeUncertainty: 0, because: 'test' },
        layers: {},
      },
    },
    runIds: [runId],
    runs: {
      [runId]: {
        ...runDefaultsOf(demoRange),
        id: runId,
        sheetId,
        name: 'Front bar',
        frontLine: bar.frontLine.map((at, index) => ({
          id: `vertex-${index}` as VertexId,
          at,
          treatment: null,
        })),
        backSide: bar.backSide,
        depthMm: bar.depthMm,
        ends: [
          { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
          { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
        ],
        pickUncertaintyPt: 0,
      },
    },
    stations: {
      ['station-1' as StationId]: {
        id: 'station-1' as StationId,
        runId,
        item: 'beer-tower',
        vertexId: 'vertex-0' as VertexId,
        at: bar.frontLine[0],
        withinMm: 100,
      },
    },
  };
};

describe('what a project is found by', () => {
  it('has each straight as the plan dimensions it', () => {
    const facts = projectFactsOf(frontBar());
    expect(facts.runs[0]?.straightsMm).toEqual(drawnMm);
    expect(facts.runs[0]?.turnsDeg.map(Math.abs)).toEqual([90]);
  });

  it('names stations, plans, the range and open questions', () => {
    expect(projectFactsOf(frontBar())).toMatchObject({
      stations: ['beer-tower'],
      plans: [{ sha256, fileName: 'Ground floor.pdf' }],
      rangeId: demoRange.id,
      openQuestions: 1,
      nameKey: 'quay street tap',
    });
  });

  it('has words of everything that a person wrote', () => {
    const { words } = projectFactsOf(frontBar());
    for (const word of ['quay', 'front', 'beer', 'tower', 'ground', 'floor', 'pdf', 'a', '101', 'soffit'])
      expect(words).toContain(word);
  });

  it('has bays and low sections by what they are, what they are called and what stands in them', () => {
    const document = frontBar();
    const [from, to] = demoPlanTruth.frontBar.frontLine;
    const zone = (kind: Zone['kind'], name: string, more: Partial<Zone> = {}) => ({
      id: `zone-${name.toLowerCase()}` as ZoneId,
      runId,
      kind,
      name,
      vertexId: 'vertex-0' as VertexId,
      a: from,
      b: to,
      ...more,
    });
    const wordsWith = (...zones: readonly Zone[]) =>
      projectFactsOf({ ...document, zones: Object.fromEntries(zones.map((one) => [one.id, one])) }).words;
    const bay = zone('bay', 'Underbar', { equipmentKind: 'ice-machine' });
    for (const word of ['bay', 'underbar', 'ice', 'machine']) expect(wordsWith(bay)).toContain(word);
    for (const word of ['low', 'section', 'ramp']) expect(wordsWith(zone('low', 'Ramp'))).toContain(word);
    // What the architect calls a column is no part of the bar.
    expect(wordsWith(zone('blocked', 'Underbar'))).not.toContain('underbar');
    // Nor is a zone of a run that another one took the place of, or that is gone.
    expect(wordsWith({ ...bay, runId: 'run-9' as RunId })).not.toContain('underbar');
  });

  it('has no lengths while the sheet has no scale', () => {
    const document = frontBar();
    const sheet = document.sheets[sheetId]!;
    const facts = projectFactsOf({
      ...document,
      sheets: { [sheetId]: { ...sheet, acceptedScale: null } },
    });
    expect(facts.runs[0]?.straightsMm).toEqual([]);
    expect(facts.picture?.runs[0]?.isClosed).toBe(false);
  });

  it('can be worked out for whatever editing leads to', () => {
    const start = {
      projectId: projectIdOf(1),
      revision: 0,
      document: emptyDocument('Any', { id: demoRange.id, version: 1 }),
      history: { done: [], undone: [] },
    };
    let round = 0;
    for (const { after } of changesOf(start, 8)) {
      const facts = projectFactsOf(after.document);
      expect(JSON.parse(JSON.stringify(facts))).toEqual(facts);
      round += 1;
      if (round === 400) break;
    }
  });
});

describe('the picture of a project’s counters', () => {
  it('keeps the shape: the outline encloses front length times depth, less what the corner takes', () => {
    const { frontBar: bar } = demoPlanTruth;
    const picture = runPictureOf(frontBar());
    if (!picture) throw new Error('no picture');
    const points = picture.runs[0]!.points;
    // The shoelace formula, over the picture; and over the drawing's own dimensions for the L of two straights.
    let twice = 0;
    for (let index = 0; index < points.length; index += 2) {
      const next = (index + 2) % points.length;
      twice += points[index]! * points[next + 1]! - points[next]! * points[index + 1]!;
    }
    const [a, b] = drawnMm;
    const isOutside = projectFactsOf(frontBar()).runs[0]!.turnsDeg[0]! > 0;
    const areaMm2 = bar.depthMm * (a + b) + (isOutside ? -1 : 1) * bar.depthMm ** 2;
    const longestMm = Math.max(a, b) + (isOutside ? 0 : bar.depthMm);
    expect(Math.max(picture.width, picture.height)).toBe(1000);
    expect(Math.abs(twice) / 2).toBeCloseTo(areaMm2 * (1000 / longestMm) ** 2, -4);
  });

  it('is none where nothing is traced', () => {
    expect(runPictureOf(emptyDocument('Any', { id: 'r', version: 1 }))).toBeNull();
  });
});
