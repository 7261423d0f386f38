import { describe, expect, it } from 'vitest';
import { createFitQueue } from '../../../renderer/fitting/fitQueue.ts';
import type { FitRequest, FitResponse } from '../../../renderer/fitting/fitWorker.ts';

/** A queue over engines that answer when the test says so, and a clock that the test moves. */
const queueUnderTest = () => {
  const asked: string[] = [];
  const answered: string[] = [];
  const ended: number[] = [];
  const waits: { readonly act: () => void; isStopped: boolean }[] = [];
  let engines = 0;
  let answer: ((response: FitResponse) => void) | null = null;
  const queue = createFitQueue({
    start: (onAnswer) => {
      engines += 1;
      const mine = engines;
      answer = onAnswer;
      return { ask: ({ key }) => asked.push(key), end: () => ended.push(mine) };
    },
    onAnswer: ({ key }) => answered.push(key),
    patienceMs: 100,
    later: (_delay, act) => {
      const wait = { act, isStopped: false };
      waits.push(wait);
      return () => {
        wait.isStopped = true;
      };
    },
  });
  const request = (key: string) => ({ key }) as FitRequest;
  return {
    asked,
    answered,
    ended,
    want: (...keys: readonly string[]) =>
      queue.want(keys.map((key) => ({ owner: key.split(' ')[0] ?? key, request: request(key) }))),
    finish: (key: string) => answer?.({ key, ok: false, message: '' }),
    passTime: () => {
      for (const wait of waits.splice(0)) if (!wait.isStopped) wait.act();
    },
    end: queue.end,
  };
};

describe('the queue of fits', () => {
  it('asks for one at a time', () => {
    const { want, asked, finish, answered } = queueUnderTest();
    want('front 1', 'back 1');
    expect(asked).toEqual(['back 1']);
    finish('back 1');
    expect(asked).toEqual(['back 1', 'front 1']);
    finish('front 1');
    expect(answered).toEqual(['back 1', 'front 1']);
  });

  it('solves what changed last first', () => {
    const { want, asked, finish } = queueUnderTest();
    want('front 1');
    want('front 1', 'back 1', 'side 1');
    want('front 1', 'back 2', 'side 1');
    finish('front 1');
    expect(asked.at(-1)).toBe('back 2');
    finish('back 2');
    expect(asked.at(-1)).toBe('side 1');
  });

  it('never solves what a drag has gone past while it waited', () => {
    const { want, asked, finish } = queueUnderTest();
    want('front 1');
    for (let step = 2; step <= 50; step += 1) want(`front ${step}`);
    finish('front 1');
    finish('front 50');
    expect(asked).toEqual(['front 1', 'front 50']);
  });

  it('gives up stale work that takes longer than its patience, and starts anew with the newest', () => {
    const { want, asked, ended, passTime, finish, answered } = queueUnderTest();
    want('front 1');
    want('front 2');
    want('front 3');
    expect(ended).toEqual([]);
    passTime();
    expect(ended).toEqual([1]);
    expect(asked).toEqual(['front 1', 'front 3']);
    finish('front 3');
    expect(answered).toEqual(['front 3']);
  });

  it('keeps stale work that answers within its patience: it may be wanted again', () => {
    const { want, asked, ended, passTime, finish, answered } = queueUnderTest();
    want('front 1');
    want('front 2');
    finish('front 1');
    passTime();
    expect([asked, ended, answered]).toEqual([['front 1', 'front 2'], [], ['front 1']]);
  });

  it('does not interrupt work that is wanted again by the time its patience ends', () => {
    const { want, ended, passTime } = queueUnderTest();
    want('front 1');
    want('front 2');
    want('front 1');
    passTime();
    expect(ended).toEqual([]);
  });

  it('lets go of everything at the end', () => {
    const { want, asked, ended, end, finish, answered } = queueUnderTest();
    want('front 1', 'back 1');
    end();
    finish('back 1');
    expect([asked, ended, answered]).toEqual([['back 1'], [1], []]);
  });
});
