import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../src/app/createApi.ts';
import { projectFactsOf, projectFactsVersion } from '../../src/app/search/projectFacts.ts';
import type { StoreSearch } from '../../src/app/search/searchPort.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { createPortsOver } from '../../src/host/nodePorts.ts';
import { archivedProjects, fillWith } from '../archive/archivedProjects.ts';
import { fixedNow } from '../archive/editedSteps.ts';

/**
 * What a search of the archive costs among many projects, and against the same search among ten. Run with
 * `node tests/bench/archiveSearch.bench.ts [PROJECTS]`.
 */
const many = Number(process.argv[2] ?? 10_000);
const repeats = 40;

const page = { offset: 0, most: 50 };
const searches: Readonly<Record<string, StoreSearch>> = {
  everything: { words: [], ...page },
  'the last page': { words: [], offset: many - 50, most: 50 },
  'by name': { words: [], order: 'name', ...page },
  'by length': { words: [], order: 'length', descending: true, ...page },
  'one rare word': { words: [`j${String(Math.floor(many / 2)).padStart(5, '0')}`], ...page },
  'one common word': { words: ['quay'], ...page },
  'one letter': { words: ['q'], ...page },
  'a word that all have': { words: ['pdf'], ...page },
  'two words': { words: ['copper', 'hotel'], ...page },
  'a word on a plan': { words: ['mezzanine'], ...page },
  'a state and a client': { words: [], states: ['lost'], client: 'Ferrow', ...page },
  'a run length': { words: [], runFromMm: 4900, runToMm: 5100, ...page },
  'a station, a state, a length, by client': {
    words: ['tap'],
    stations: ['beer-tower'],
    states: ['issued', 'ordered'],
    runFromMm: 3000,
    order: 'client',
    ...page,
  },
  'a plan used before': { words: [], planSha256: '00000007'.repeat(8), ...page },
  'pieces, by tender date': { words: [], piecesFrom: 5, piecesTo: 9, order: 'tender-date', ...page },
};

const quantile = (values: readonly number[], part: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * part)] ?? 0;
const ms = (value: number): string => `${value.toFixed(2)} ms`;

const folder = mkdtempSync(join(tmpdir(), 'footrail-bench-'));
try {
  const timesOf = async (count: number): Promise<ReadonlyMap<string, readonly number[]>> => {
    const place = join(folder, String(count));
    const archive = await openArchive({ folder: place, now: fixedNow });
    const nextStale = () => archive.store.staleProjects(projectFactsVersion, 500);
    const start = performance.now();
    await fillWith(archive.store, archivedProjects(count, 1));
    for (let number = 0; number < count / 20; number += 1)
      await archive.store.putPlanWords({
        sha256: String(number * 20)
          .padStart(8, '0')
          .repeat(8),
        page: 1,
        words: Array.from({ length: 400 }, (_, word) => `word${(number * 31 + word * 7) % 3000}`).concat(
          'mezzanine',
        ),
      });
    // What is found by words read later is worked out anew, as the next search does.
    for (let stale = await nextStale(); stale.length > 0; stale = await nextStale())
      for (const { projectId, revision, document } of stale)
        await archive.store.putFacts({
          projectId,
          revision,
          facts: projectFactsOf(document as ProjectDocument),
        });
    const filled = performance.now() - start;
    const times = new Map<string, readonly number[]>();
    for (const [name, search] of Object.entries(searches)) {
      await archive.store.searchProjects(search);
      const taken: number[] = [];
      for (let repeat = 0; repeat < repeats; repeat += 1) {
        const from = performance.now();
        await archive.store.searchProjects(search);
        taken.push(performance.now() - from);
      }
      times.set(name, taken);
    }
    const api = createApi(createPortsOver(archive.store));
    const asked: number[] = [];
    for (const { projectId, document } of archivedProjects(count, 1).slice(0, repeats))
      for (const runId of document.runIds) {
        const from = performance.now();
        await api.call('similar-runs', { projectId, runId });
        asked.push(performance.now() - from);
      }
    times.set('runs like one', asked);
    archive.close();
    const { size } = statSync(archive.path);
    const before = performance.now();
    (await openArchive({ folder: place, now: fixedNow })).close();
    console.log(
      `${count} projects: ${(size / count / 1024).toFixed(1)} KiB and ${(filled / count).toFixed(2)} ms each to make; the archive opens, with its inspection, in ${ms(performance.now() - before)}`,
    );
    return times;
  };
  const few = await timesOf(10);
  const lots = await timesOf(many);
  for (const [name, taken] of lots) {
    const [middle, high] = [quantile(taken, 0.5), quantile(taken, 0.95)];
    const ratio = middle / quantile(few.get(name) ?? [], 0.5);
    console.log(
      `${name}: median ${ms(middle)}, 95 % ${ms(high)}; ${ratio.toFixed(1)} times the same among ten`,
    );
  }
  console.log(`all searches together: 95 % ${ms(quantile([...lots.values()].flat(), 0.95))}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
