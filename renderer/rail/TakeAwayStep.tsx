/** What leaves the office: the schedule, the workbook and the plan with the runs on it. */
export const TakeAwayStep = (props: {
  readonly hasRuns: boolean;
  readonly isBusy: boolean;
  readonly trouble: string | null;
  readonly onSchedule: () => void;
  readonly onWorkbook: () => void;
  readonly onPlan: () => void;
}) => (
  <>
    {!props.hasRuns && <p className="step-lead">Trace a run first; then there is something to take away.</p>}
    <div className="acts">
      <button
        type="button"
        className="plain-button"
        disabled={!props.hasRuns || props.isBusy}
        onClick={props.onSchedule}
      >
        Schedule (CSV)
      </button>
      <button
        type="button"
        className="plain-button"
        disabled={!props.hasRuns || props.isBusy}
        onClick={props.onWorkbook}
      >
        Workbook with quote (XLSX)
      </button>
      <button
        type="button"
        className="plain-button"
        disabled={!props.hasRuns || props.isBusy}
        onClick={props.onPlan}
      >
        Plan with runs (PDF)
      </button>
    </div>
    {props.isBusy && (
      <p className="step-lead" role="status">
        Drawing …
      </p>
    )}
    {props.trouble && (
      <p className="alert" role="alert">
        {props.trouble}
      </p>
    )}
    <p className="caution">
      Measured from a drawing. Check every dimension on site before ordering. Lifting, gas, water and
      electrical work belong to competent people under the rules of the place.
    </p>
  </>
);
