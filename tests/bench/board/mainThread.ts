import type { CDPSession } from 'playwright-core';

interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  /** What the thread itself worked, without waiting; in microseconds as `dur`. */
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
  readonly args: { readonly name?: string; readonly data?: { readonly isMainFrame?: boolean } };
}

/** What the page's main thread did while it was watched. */
export interface WatchedThread {
  /** Length of each task, in ms. */
  readonly tasksMs: readonly number[];
  /** What the thread itself worked in each task, without its waiting for the compositor or for a processor, in ms. */
  readonly workMs: readonly number[];
  /** Names of the events that took the most time within tasks over 50 ms, with that time in ms. */
  readonly inLongTasks: ReadonlyMap<string, number>;
}

const ofRenderer = (events: readonly TraceEvent[]): ((event: TraceEvent) => boolean) => {
  const threads = events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain');
  // Of several renderers (a page left over from before), the busiest is the page in hand.
  const busy = new Map<string, number>();
  const key = ({ pid, tid }: TraceEvent) => `${pid} ${tid}`;
  const renderers = new Set(threads.map(key));
  for (const event of events)
    if (renderers.has(key(event))) busy.set(key(event), (busy.get(key(event)) ?? 0) + (event.dur ?? 0));
  const [page] = [...busy].sort(([, one], [, other]) => other - one)[0] ?? [];
  return (event) => key(event) === page;
};

/** Watches every task of the page's main thread while `work` is done, by the browser's own tracing. */
export const watchMainThread = async (
  session: CDPSession,
  work: () => Promise<void>,
): Promise<WatchedThread> => {
  const events: TraceEvent[] = [];
  const collect = ({ value }: { value: object[] }) => {
    for (const event of value) events.push(event as TraceEvent);
  };
  session.on('Tracing.dataCollected', collect);
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: {
      includedCategories: ['toplevel', 'devtools.timeline', 'disabled-by-default-devtools.timeline'],
    },
  });
  await work();
  const complete = new Promise<void>((resolve) => session.once('Tracing.tracingComplete', () => resolve()));
  await session.send('Tracing.end');
  await complete;
  session.off('Tracing.dataCollected', collect);
  const isPage = ofRenderer(events);
  const own = events.filter((event) => event.ph === 'X' && isPage(event));
  const tasks = own.filter(({ name }) => name === 'RunTask');
  const long = tasks.filter(({ dur = 0 }) => dur > 50_000);
  const inLongTasks = new Map<string, number>();
  for (const { name, ts, dur = 0 } of own)
    if (long.some((task) => ts >= task.ts && ts < task.ts + (task.dur ?? 0)))
      inLongTasks.set(name, (inLongTasks.get(name) ?? 0) + dur / 1000);
  return {
    tasksMs: tasks.map(({ dur = 0 }) => dur / 1000),
    workMs: tasks.map(({ dur = 0, tdur = dur }) => tdur / 1000),
    inLongTasks,
  };
};
