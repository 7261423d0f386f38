import { afterAll, describe, expect, it } from 'vitest';
import { createApi } from '../../src/app/createApi.ts';
import { fitToTakeAway } from '../../src/app/fitToTakeAway.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { createPortsOver } from '../../src/host/nodePorts.ts';
import { createPlanReader } from '../../src/host/reading/createPlanReader.ts';
import { readableAngle } from '../../src/issue/planPdf/drawRunOverPlan.ts';
import { decodeLinework } from '../../src/sheet/lineworkWire.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { createMemoryStore } from '../app/memoryStore.ts';

const reader = createPlanReader();
afterAll(() => reader.close());

const mmPerPoint = 25.4 / 72;

const ringsOf = (bytes: Uint8Array) => {
  const { lines, lineCount, linePath, pathCount } = decodeLinework(bytes);
  const rings: { readonly edgesMm: readonly number[] }[] = [];
  const byPath = Array.from({ length: pathCount }, (): number[] => []);
  for (let line = 0; line < lineCount; line += 1) {
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = lines.subarray(line * 4, line * 4 + 4);
    byPath[linePath[line] ?? 0]?.push(Math.hypot(x1 - x0, y1 - y0) * mmPerPoint);
  }
  for (const edgesMm of byPath) if (edgesMm.length === 4) rings.push({ edgesMm });
  return rings;
};

describe('the plan with runs on it', () => {
  it('draws every module as wide as it is at the scale, within 0.1 mm of paper, measured from its own bytes', async () => {
    const api = createApi(createPortsOver(createMemoryStore()));
    const opened = await api.call('open-demo', {});
    if (!opened.ok) throw new Error(opened.error.message);
    const { projectId, document } = opened.value as { projectId: string; document: ProjectDocument };
    const answer = await api.call('export-plan', { projectId, sheetId: document.sheetIds[0] });
    if (!answer.ok) throw new Error(answer.error.message);
    const { bytes } = answer.value as { bytes: Uint8Array };

    // Read back by pdf.js, which had no part in writing it; the drawing's scale is 1:50 by its own dimensions.
    const before = ringsOf((await reader.readPage(await planOf(api, document), 1, {})).linework);
    const after = ringsOf((await reader.readPage(bytes, 1, {})).linework);
    const added = after.slice(before.length);
    const [front, back] = document.runIds.map((runId) => {
      const fit = fitToTakeAway(document, runId, demoRange);
      if (!fit) throw new Error('the demo has a fit');
      return fit;
    });
    const expected = [
      ...(front?.pieces ?? []).map((piece) => ({
        widthMm: piece.toMm - piece.fromMm,
        depthMm: 700,
        host: piece.host,
      })),
      ...(back?.pieces ?? []).map((piece) => ({
        widthMm: piece.toMm - piece.fromMm,
        depthMm: 600,
        host: piece.host,
      })),
    ];
    expect(expected.length).toBeGreaterThan(8);
    for (const { widthMm, depthMm, host } of expected) {
      const matching = added.filter(
        ({ edgesMm }) =>
          Math.abs((edgesMm[0] ?? 0) - widthMm / 50) <= 0.1 &&
          (host !== undefined || Math.abs((edgesMm[1] ?? 0) - depthMm / 50) <= 0.1),
      );
      expect(matching.length, `${widthMm} wide`).toBeGreaterThan(0);
    }
  });

  it('turns lettering upright on a page that is shown turned', () => {
    const upright = (angle: number, rotation: number) => {
      const shown = readableAngle(angle, rotation) - (rotation * Math.PI) / 180;
      return Math.cos(shown) > -1e-6;
    };
    for (const rotation of [0, 90, 180, 270])
      for (let step = 0; step < 24; step += 1) expect(upright((step * Math.PI) / 12, rotation)).toBe(true);
  });
});

const planOf = async (api: ReturnType<typeof createApi>, document: ProjectDocument): Promise<Uint8Array> => {
  const sha256 = document.sheets[document.sheetIds[0] ?? ('' as never)]?.planSha256;
  const answer = await api.call('plan-bytes', { sha256 });
  if (!answer.ok) throw new Error(answer.error.message);
  return (answer.value as { bytes: Uint8Array }).bytes;
};
