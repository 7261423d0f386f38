import { openPdf } from '../../src/host/reading/openPdf.ts';
import { createLineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { encodeLinework } from '../../src/sheet/lineworkWire.ts';
import type { OperatorList } from '../../src/sheet/operatorList.ts';
import { readOperators } from '../../src/sheet/readOperators.ts';
import { drawHeavyPlan } from '../fixtures/drawPlan/drawHeavyPlan.ts';
import { randomFrom } from '../sheet/randomLinework.ts';

/**
 * Extraction and index against pdf.js's operator list alone, and the time of a snap query; ratios of medians in one run.
 * Run with `node tests/bench/reading.bench.ts`.
 */
const ROUNDS = 5;

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

for (const segments of [90_000, 300_000]) {
  const { bytes } = await drawHeavyPlan(segments);
  const times = {
    operators: [] as number[],
    extraction: [] as number[],
    index: [] as number[],
    wire: [] as number[],
  };
  let drawn = 0;
  let lastIndex: ReturnType<typeof createLineworkIndex> | undefined;
  for (let round = 0; round <= ROUNDS; round++) {
    const document = await openPdf(bytes.slice(), undefined);
    const page = await document.getPage(1);
    const [minX, minY, maxX, maxY] = page.view as [number, number, number, number];
    const start = performance.now();
    const operators = (await page.getOperatorList({ annotationMode: 0 })) as OperatorList;
    const listed = performance.now();
    const { linework } = readOperators(operators, { viewBox: { minX, minY, maxX, maxY } });
    const extracted = performance.now();
    lastIndex = createLineworkIndex(linework);
    const indexed = performance.now();
    encodeLinework(linework);
    const encoded = performance.now();
    drawn = linework.lineCount;
    await document.loadingTask.destroy();
    // The first round warms the machine up.
    if (round === 0) continue;
    times.operators.push(listed - start);
    times.extraction.push(extracted - listed);
    times.index.push(indexed - extracted);
    times.wire.push(encoded - indexed);
  }
  const operators = median(times.operators);
  const added = median(times.extraction) + median(times.index);
  console.log(
    `${segments} segments (${drawn} lines): operator list ${operators.toFixed(0)} ms, extraction ${median(times.extraction).toFixed(0)} ms, ` +
      `index ${median(times.index).toFixed(0)} ms, wire ${median(times.wire).toFixed(0)} ms`,
  );
  console.log(
    `  with extraction and index / operator list alone: ${((operators + added) / operators).toFixed(2)} (goal 1.5)`,
  );
  printSnapTimes(lastIndex!);
}

function printSnapTimes(index: ReturnType<typeof createLineworkIndex>): void {
  const { lines, lineCount } = index.linework;
  const random = randomFrom(5);
  const micros: number[] = [];
  for (let i = 0; i < 22_000; i++) {
    // Near drawn lines, where a person snaps and where it is dense.
    const at = Math.floor(random() * lineCount) * 4;
    const point = { x: lines[at]! + 8 * (random() - 0.5), y: lines[at + 1]! + 8 * (random() - 0.5) };
    const start = performance.now();
    index.snapCandidates(point, 6);
    if (i >= 2_000) micros.push((performance.now() - start) * 1000);
  }
  micros.sort((a, b) => a - b);
  const at = (share: number): string => micros[Math.floor(micros.length * share)]!.toFixed(0);
  console.log(`  snap query: median ${at(0.5)} us, 99th percentile ${at(0.99)} us (goal 1000 us)`);
}
