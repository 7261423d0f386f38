import './JobStep.css';
import { useState } from 'react';
import type { Command } from '../../src/document/command.ts';
import { type Job, type JobState, jobStates } from '../../src/document/job.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import type { ProjectState } from '../project/projectSession.ts';
import { HistoryList } from './HistoryList.tsx';
import { JobField } from './JobField.tsx';
import { Addenda, Questions } from './JobPapers.tsx';
import { SeenBefore } from './SeenBefore.tsx';
import { Step } from './Step.tsx';

/** What the office keeps of the job: who, where, until when, what was added and asked, how it stands, what was done. */
export const JobStep = (props: {
  readonly api: ApiClient;
  readonly project: ProjectState;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const [isOpen, setIsOpen] = useState(false);
  const { job } = props.project.document;
  const change = (changes: Partial<Job>) => props.onCommand({ type: 'change-job', changes });
  const open = job.questions.filter(({ answer }) => answer === '').length;
  return (
    <Step
      word="Job"
      answer={
        <>
          {job.number && <span className="plus-minus">{job.number} </span>}
          {job.state}
          {open > 0 && `, ${open} open`}
        </>
      }
      isOpen={isOpen}
      onOpen={() => setIsOpen(!isOpen)}
    >
      <label className="field">
        <span>State</span>
        <select value={job.state} onChange={(event) => change({ state: event.target.value as JobState })}>
          {jobStates.map((state) => (
            <option key={state}>{state}</option>
          ))}
        </select>
      </label>
      <JobField label="Project" value={job.name} most={200} isNeeded onChange={(name) => change({ name })} />
      <div className="pair">
        <JobField label="Job number" value={job.number} most={60} onChange={(number) => change({ number })} />
        <JobField
          label="Tender date"
          type="date"
          value={job.tenderDate}
          onChange={(tenderDate) => change({ tenderDate })}
        />
      </div>
      <JobField label="Client" value={job.client} most={200} onChange={(client) => change({ client })} />
      <JobField label="Site" value={job.site} most={300} onChange={(site) => change({ site })} />
      <Addenda addenda={job.addenda} onChange={(addenda) => change({ addenda })} />
      <Questions questions={job.questions} onChange={(questions) => change({ questions })} />
      <JobField
        label="Keep until (empty: for good)"
        type="date"
        value={job.retainUntil}
        onChange={(retainUntil) => change({ retainUntil })}
      />
      <SeenBefore api={props.api} project={props.project} unit={props.unit} />
      <HistoryList api={props.api} project={props.project} />
    </Step>
  );
};
