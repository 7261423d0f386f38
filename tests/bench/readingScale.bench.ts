import { readVerdict } from '../../src/scale/readVerdict.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { judgeReading } from '../scale/judgeReading.ts';
import { readFirstPage } from '../sheet/readPdfContent.ts';

/** How often the scale of 200 random drawn plans is read right. Run with `node tests/bench/readingScale.bench.ts`. */
const PLANS = 200;

const counts = new Map<string, number>();
const start = performance.now();
for (let seed = 1; seed <= PLANS; seed++) {
  const { bytes, truth } = await drawRandomPlan(seed);
  const { reading, linework } = await readFirstPage(bytes);
  const outcome = judgeReading(readVerdict(reading, linework), truth);
  counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
}
const each = ((performance.now() - start) / PLANS).toFixed(0);
console.log(
  `scale of ${PLANS} random plans, seeds 1 to ${PLANS}: ${JSON.stringify(Object.fromEntries(counts))}; ${each} ms each`,
);
