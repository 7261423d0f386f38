import type { ReactNode } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';

/** Changes between two issues as a table. */
export const ChangeList = (props: {
  readonly caption: string;
  /** Null while they are worked out. */
  readonly changes: ApiOutput<'compare-issues'>['changes'] | null;
  readonly none: string;
  readonly children?: ReactNode;
}) => (
  <section className="issued-changes" aria-label={props.caption}>
    <div className="issued-changes-head">
      <h3>{props.caption}</h3>
      {props.children}
    </div>
    {props.changes === null ? (
      <p className="quiet" role="status">
        Comparing …
      </p>
    ) : props.changes.length === 0 ? (
      <p className="quiet">{props.none}</p>
    ) : (
      <table>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">What</th>
            <th scope="col">Was</th>
            <th scope="col">Is</th>
          </tr>
        </thead>
        <tbody>
          {props.changes.map(({ where, what, was, is }, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows have no identity and never move
            <tr key={index}>
              <th scope="row">{where || 'Whole project'}</th>
              <td>{what}</td>
              <td>{was}</td>
              <td>{is}</td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </section>
);
