import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import { openArchive } from '../../src/archive/openArchive.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { changesOf, edit, fixedNow, newProject, projectIdOf } from '../archive/editedSteps.ts';

/**
 * What the archive costs: a durable command, with what the project is found by, against a bare durable row of the same bytes (the price of the disk), and
 * listing and opening among many projects against few. Run with `node tests/bench/archive.bench.ts [PROJECTS]`.
 */
const many = Number(process.argv[2] ?? 10_000);
const commands = 400;

const folder = mkdtempSync(join(tmpdir(), 'footrail-bench-'));
const timed = async <Value>(work: () => Promise<Value> | Value): Promise<{ ms: number; value: Value }> => {
  const start = performance.now();
  const value = await work();
  return { ms: performance.now() - start, value };
};
const quantile = (values: readonly number[], part: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * part)] ?? 0;
const medianOf = async (repeats: number, work: () => Promise<unknown>): Promise<number> => {
  const times: number[] = [];
  for (let repeat = 0; repeat < repeats; repeat += 1) times.push((await timed(work)).ms);
  return quantile(times, 0.5);
};
const ms = (value: number): string => `${value.toFixed(2)} ms`;

try {
  const archive = await openArchive({ folder, now: fixedNow });
  const { store } = archive;

  const bare = new Database(join(folder, 'bare.sqlite'));
  bare.pragma('journal_mode = WAL');
  bare.pragma('synchronous = FULL');
  bare.exec('CREATE TABLE rows (row_key INTEGER PRIMARY KEY, content TEXT) STRICT');
  const insert = bare.prepare('INSERT INTO rows (content) VALUES (?)');

  const start = await newProject(store, projectIdOf('first'));
  const durable: number[] = [];
  const bareRows: number[] = [];
  let documentBytes = 0;
  for (const { event, after } of changesOf(start, 1)) {
    const expectedRevision = after.revision - 1;
    const { document, projectId } = after;
    const change = () =>
      store.appendEvent({ projectId, expectedRevision, event, document, facts: projectFactsOf(document) });
    durable.push((await timed(change)).ms);
    const content = JSON.stringify(document) + JSON.stringify(event);
    documentBytes = content.length;
    bareRows.push((await timed(() => insert.run(content))).ms);
    if (after.revision === commands) break;
  }
  bare.close();
  const [command, row] = [quantile(durable, 0.5), quantile(bareRows, 0.5)];
  console.log(
    `a durable command: median ${ms(command)}, 95 % ${ms(quantile(durable, 0.95))}; ${(command / row).toFixed(2)} times a bare durable row of the same ${documentBytes} bytes (${ms(row)})`,
  );

  const openOne = () => store.loadProject(projectIdOf('first'));
  const openAmongFew = await medianOf(20, openOne);
  const listFew = await medianOf(20, () => store.listProjects());
  const model = (await openOne())?.document as ProjectDocument;
  const filling = await timed(async () => {
    for (let number = 0; number < many; number += 1) {
      const projectId = projectIdOf(number);
      const document = { ...model, job: { ...model.job, name: `Job ${number}` } };
      await store.createProject({ projectId, document, at: fixedNow(), facts: projectFactsOf(document) });
      if (number % 100 === 0) {
        const project = { ...(await newProject(store, projectIdOf(`${number}x`))), projectId };
        await edit(store, { ...project, document }, 5, number);
      }
    }
  });
  const openAmongMany = await medianOf(20, openOne);
  const listMany = await medianOf(5, () => store.listProjects());
  const reopening = await timed(async () => {
    archive.close();
    return openArchive({ folder, now: fixedNow });
  });
  const size = statSync(archive.path).size;
  console.log(
    `filled with ${many} more projects in ${(filling.ms / 1000).toFixed(1)} s; ${(size / many / 1024).toFixed(1)} KiB a project`,
  );
  console.log(
    `opening a project of ${commands} changes: ${ms(openAmongMany)} among ${many}, ${ms(openAmongFew)} among few (${(openAmongMany / openAmongFew).toFixed(2)} times)`,
  );
  console.log(`listing: ${ms(listMany)} for ${many}, ${ms(listFew)} for one`);
  console.log(
    `opening the archive of ${(size / 1024 / 1024).toFixed(0)} MiB, with its inspection: ${ms(reopening.ms)}`,
  );
  const backup = await timed(() => reopening.value.backUp());
  console.log(`a checked backup of it: ${ms(backup.ms)}`);
  reopening.value.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
