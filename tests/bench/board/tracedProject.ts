import { PDFDocument } from '@cantoo/pdf-lib';
import { createApi } from '../../../src/app/createApi.ts';
import type { RunId, SheetId, VertexId } from '../../../src/document/ids.ts';
import type { Run, Sheet } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { createNodePorts } from '../../../src/host/nodePorts.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

const sheetId = 'sheet-bench' as SheetId;
/** A1, landscape, in user-space units. */
export const benchSheet = { width: 2384, height: 1684 } as const;
const ratio = 50;
const unitsPerMm = 72 / 25.4 / ratio;

/** A page of the size of A1 with nothing on it. */
export const emptyPlan = async (): Promise<Uint8Array> => {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  pdf.addPage([benchSheet.width, benchSheet.height]);
  return pdf.save();
};

/** So many bars of 5 to 9 m with a corner, spread over the sheet in rows of four. */
const benchRuns = (count: number): readonly Run[] =>
  Array.from({ length: count }, (_, index): Run => {
    const id = `run-${index}` as RunId;
    const left = 120 + (index % 4) * 560;
    const top = 200 + Math.floor(index / 4) * 290;
    const long = (5000 + (index % 5) * 1000) * unitsPerMm;
    const short = (1800 + (index % 3) * 700) * unitsPerMm;
    return {
      ...runDefaultsOf(demoRange),
      id,
      sheetId,
      name: `Bar ${index + 1}`,
      frontLine: [
        [left, top],
        [left + long, top],
        [left + long, top + short],
      ].map(([x = 0, y = 0], place) => ({
        id: `vertex-${index}x${place}` as VertexId,
        at: paperPoint(x, y),
        treatment: null,
      })),
      pickUncertaintyPt: 0.3,
    };
  });

/** Puts a project with a plan, its scale and so many runs into the archive of a folder. */
export const keepTracedProject = async (
  archiveDir: string,
  name: string,
  plan: Uint8Array,
  runCount: number,
): Promise<void> => {
  const { ports, archive } = await createNodePorts({ archiveDir });
  try {
    const api = createApi(ports);
    const answered = async (method: Parameters<typeof api.call>[0], input: unknown): Promise<unknown> => {
      const answer = await api.call(method, input);
      if (!answer.ok) throw new Error(`${method}: ${answer.error.message}`);
      return answer.value;
    };
    const { projectId, revision } = (await answered('create-project', { name })) as {
      projectId: string;
      revision: number;
    };
    const { sha256 } = (await answered('take-in-plan', { fileName: `${name}.pdf`, bytes: plan })) as {
      sha256: string;
    };
    const sheet: Sheet = {
      id: sheetId,
      name,
      planSha256: sha256,
      planFileName: `${name}.pdf`,
      pageNumber: 1,
      userUnit: 1,
      acceptedScale: { ratio, relativeUncertainty: 0.002, because: 'the bench says so' },
      layers: {},
    };
    await answered('apply-command', {
      projectId,
      revision,
      command: {
        type: 'together',
        label: 'Trace the bench',
        commands: [
          { type: 'add-sheet', sheet },
          ...benchRuns(runCount).map((run) => ({ type: 'add-run', run })),
        ],
      },
    });
  } finally {
    archive.close();
  }
};
