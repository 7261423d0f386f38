import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { commandSchema } from '../../src/document/command.ts';
import { migrateDocument } from '../../src/document/migrateDocument.ts';
import { emptyDocument } from '../../src/document/projectDocument.ts';

const addendum = { title: 'Addendum 2', receivedOn: '2027-02-01', note: 'New door at grid C' };

describe('the job’s particulars', () => {
  it('open as empty in a project stored before the office kept them', () => {
    const { addenda, questions, retainUntil, ...older } = emptyDocument('Quay', { id: 'r', version: 1 }).job;
    expect([addenda, questions, retainUntil]).toEqual([[], [], '']);
    const opened = migrateDocument({ ...emptyDocument('Quay', { id: 'r', version: 1 }), job: older });
    expect(opened).toMatchObject({ ok: true, document: { job: { addenda: [], questions: [] } } });
  });

  it('stay where a change leaves them out', () => {
    const before = emptyDocument('Quay', { id: 'r', version: 1 });
    const withAddendum = applyCommand(before, {
      type: 'change-job',
      changes: { addenda: [addendum], retainUntil: '2034-12-31' },
    });
    if (!withAddendum.ok) throw new Error('refused');
    const command = commandSchema.parse({ type: 'change-job', changes: { client: 'Salt Lane' } });
    const after = applyCommand(withAddendum.document, command);
    expect(after).toMatchObject({
      ok: true,
      document: { job: { client: 'Salt Lane', addenda: [addendum], retainUntil: '2034-12-31' } },
    });
  });

  it.each([
    ['a day that no calendar has', { tenderDate: '2027-02-30' }],
    ['an addendum without a title', { addenda: [{ ...addendum, title: '' }] }],
    ['an unknown state', { state: 'won' }],
  ])('refuse %s', (_, changes) => {
    expect(commandSchema.safeParse({ type: 'change-job', changes }).success).toBe(false);
  });
});
