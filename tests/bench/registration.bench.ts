import { changedLinework } from '../../src/sheet/registration/changedLinework.ts';
import { registerSheets } from '../../src/sheet/registration/registerSheets.ts';
import { alteredSheet } from '../fixtures/revisedPlan/alteredSheet.ts';
import { revisedPlan } from '../fixtures/revisedPlan/revisedPlan.ts';
import { randomLinework } from '../sheet/randomLinework.ts';
import { judgeRegistered } from '../sheet/registration/judgeRegistered.ts';

/**
 * How the time to lay a sheet on its revision grows with the number of lines: a plan, then sheets of 90,000 and 300,000
 * scattered lines, moved and altered. Run with `node tests/bench/registration.bench.ts`.
 */
const viewBox = { minX: 0, minY: 0, maxX: 2384, maxY: 1684 };
const plan = revisedPlan(24);
const cases = [
  { name: 'a plan', old: plan.old, altered: plan },
  ...[90_000, 300_000].map((lineCount) => {
    const old = { linework: randomLinework(5, lineCount), viewBox };
    return { name: `${lineCount} scattered lines`, old, altered: alteredSheet(1, old) };
  }),
];

/** Time of this process's own work, so that a busy machine does not count. */
const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

registerSheets(plan.old, plan.next);
let first = 0;
for (const { name, old, altered } of cases) {
  const start = cpuMs();
  const answer = registerSheets(old, altered.next);
  const registered = cpuMs() - start;
  if (answer.certainty !== 'none')
    changedLinework(old.linework, altered.next.linework, answer.transform, 0.5);
  const changed = cpuMs() - start - registered;
  first ||= registered;
  console.log(
    `${name} (${old.linework.lineCount} lines): ${judgeRegistered(answer, altered).outcome}, ${answer.certainty}; registered in ${registered.toFixed(0)} ms of work (${(registered / first).toFixed(1)} x the plan), changes in ${changed.toFixed(0)} ms`,
  );
}
