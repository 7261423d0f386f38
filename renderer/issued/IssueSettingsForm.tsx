import { type IssueSettings, issuePurposes } from '../../src/document/issueSettings.ts';
import { JobField } from '../rail/JobField.tsx';
import { purposeNames } from './issuedWords.ts';

/** What the title block of the next issue says, beside what the project decides. */
export const IssueSettingsForm = (props: {
  readonly settings: IssueSettings;
  readonly onChange: (settings: IssueSettings) => void;
}) => {
  const { settings } = props;
  const change = (changes: Partial<IssueSettings>) => props.onChange({ ...settings, ...changes });
  return (
    <div className="issue-settings">
      <label className="field">
        <span>For</span>
        <select
          value={settings.purpose}
          onChange={(event) => change({ purpose: event.target.value as IssueSettings['purpose'] })}
        >
          {issuePurposes.map((purpose) => (
            <option key={purpose} value={purpose}>
              {purposeNames[purpose]}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span>Paper</span>
        <select
          value={settings.paper}
          onChange={(event) => change({ paper: event.target.value as IssueSettings['paper'] })}
        >
          <option value="iso">ISO A sizes, millimetres</option>
          <option value="us">US sizes, feet and inches</option>
        </select>
      </label>
      <JobField
        label="Issued by"
        value={settings.creator}
        most={200}
        onChange={(creator) => change({ creator })}
      />
      <JobField
        label="Approved by"
        value={settings.approver}
        most={200}
        onChange={(approver) => change({ approver })}
      />
      <JobField
        label="Legal owner"
        value={settings.legalOwner}
        most={200}
        onChange={(legalOwner) => change({ legalOwner })}
      />
      <JobField
        label="Department"
        value={settings.responsibleDepartment}
        most={200}
        onChange={(responsibleDepartment) => change({ responsibleDepartment })}
      />
    </div>
  );
};
