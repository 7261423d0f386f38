import { type FormEvent, useState } from 'react';
import type { Addendum, Question } from '../../src/document/job.ts';
import { JobField } from './JobField.tsx';

const today = () => new Date().toLocaleDateString('en-CA');

const replaced = <Value,>(values: readonly Value[], index: number, changes: Partial<Value>): Value[] =>
  values.map((value, at) => (at === index ? { ...value, ...changes } : value));

const without = <Value,>(values: readonly Value[], index: number): Value[] =>
  values.filter((_, at) => at !== index);

/** One line to add to a list with. */
const AddLine = (props: {
  readonly label: string;
  readonly most: number;
  readonly onAdd: (text: string) => void;
}) => {
  const [text, setText] = useState('');
  const add = (event: FormEvent) => {
    event.preventDefault();
    if (!text.trim()) return;
    props.onAdd(text.trim());
    setText('');
  };
  return (
    <form onSubmit={add} className="add-line">
      <label className="field">
        <span>{props.label}</span>
        <input value={text} maxLength={props.most} onChange={(event) => setText(event.target.value)} />
      </label>
      <button type="submit" className="word-button" disabled={!text.trim()}>
        Add
      </button>
    </form>
  );
};

/** Later parts of the tender pack, in the order in which they were noted. */
export const Addenda = (props: {
  readonly addenda: readonly Addendum[];
  readonly onChange: (addenda: Addendum[]) => void;
}) => {
  const { addenda, onChange } = props;
  return (
    <details className="job-papers">
      <summary>
        Addenda <span className="job-count">{addenda.length || 'none'}</span>
      </summary>
      <ul>
        {addenda.map(({ title, receivedOn, note }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: an addendum is known by its place alone
          <li key={index}>
            <JobField
              label="Addendum"
              value={title}
              most={120}
              isNeeded
              onChange={(next) => onChange(replaced(addenda, index, { title: next }))}
            />
            <JobField
              label="Received"
              type="date"
              value={receivedOn}
              onChange={(next) => onChange(replaced(addenda, index, { receivedOn: next }))}
            />
            <JobField
              label="What it changes"
              value={note}
              most={1000}
              isLong
              onChange={(next) => onChange(replaced(addenda, index, { note: next }))}
            />
            <button type="button" className="word-button" onClick={() => onChange(without(addenda, index))}>
              Remove
            </button>
          </li>
        ))}
      </ul>
      <AddLine
        label="Addendum received today"
        most={120}
        onAdd={(title) => onChange([...addenda, { title, receivedOn: today(), note: '' }])}
      />
    </details>
  );
};

/** Questions put to the architect or the client; one without an answer is open. */
export const Questions = (props: {
  readonly questions: readonly Question[];
  readonly onChange: (questions: Question[]) => void;
}) => {
  const { questions, onChange } = props;
  const open = questions.filter(({ answer }) => answer === '').length;
  return (
    <details className="job-papers">
      <summary>
        Questions{' '}
        <span className="job-count">
          {questions.length === 0
            ? 'none'
            : `${questions.length}, ${open === 0 ? 'all answered' : `${open} open`}`}
        </span>
      </summary>
      <ul>
        {questions.map(({ question, askedOn, answer, answeredOn }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a question is known by its place alone
          <li key={index} className={answer === '' ? 'is-open' : undefined}>
            <JobField
              label={askedOn ? `Asked ${askedOn}` : 'Asked'}
              value={question}
              most={1000}
              isNeeded
              isLong
              onChange={(next) => onChange(replaced(questions, index, { question: next }))}
            />
            <JobField
              label={answeredOn ? `Answered ${answeredOn}` : 'Answer'}
              value={answer}
              most={2000}
              isLong
              onChange={(next) =>
                onChange(replaced(questions, index, { answer: next, answeredOn: next === '' ? '' : today() }))
              }
            />
            <button type="button" className="word-button" onClick={() => onChange(without(questions, index))}>
              Remove
            </button>
          </li>
        ))}
      </ul>
      <AddLine
        label="Question asked today"
        most={1000}
        onAdd={(question) =>
          onChange([...questions, { question, askedOn: today(), answer: '', answeredOn: '' }])
        }
      />
    </details>
  );
};
