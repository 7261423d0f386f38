import type { BayChecks } from '../../src/measure/bayChecks.ts';
import { serviceWord } from '../../src/services/servicePoint.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';

/** Whether anything of a bay does not go where it is. */
export const isBayInTrouble = (checks: BayChecks | null): boolean =>
  checks !== null &&
  (checks.doorSwing?.isTooFar === true || (checks.height?.marginMm ?? 0) < 0 || checks.astray.length > 0);

/** What a bay keeps free, and how its door and its height stand to the aisle and the top. */
export const BayVerdicts = (props: { readonly checks: BayChecks; readonly unit: DisplayUnit }) => {
  const { keptFreeMm, doorSwing, height, astray } = props.checks;
  const length = (mm: number) => formatLength(Math.abs(mm), { unit: props.unit });
  return (
    <ul className="quiet-lines">
      <li>{length(keptFreeMm)} kept free; the top runs on over it.</li>
      {doorSwing && doorSwing.leftMm === null && (
        <li>Door swings {length(doorSwing.swingMm)} into the aisle; no traced run lies behind it.</li>
      )}
      {doorSwing?.leftMm != null &&
        (doorSwing.isTooFar ? (
          <li className="alert">
            The door swings {length(doorSwing.swingMm)}, the aisle is {length(doorSwing.clearMm ?? 0)} here:{' '}
            {length(doorSwing.leftMm)} too far.
          </li>
        ) : (
          <li>
            With its door open, {length(doorSwing.leftMm)} of {length(doorSwing.clearMm ?? 0)} aisle is left
            to pass.
          </li>
        ))}
      {doorSwing && (
        <li>Only traced runs count here: the plan’s walls, columns and doors are for you to check.</li>
      )}
      {height &&
        (height.marginMm < 0 ? (
          <li className="alert">
            It needs {length(height.neededMm)}; under the top there is {length(height.underTopMm)}:{' '}
            {length(height.marginMm)} too little.
          </li>
        ) : (
          <li>{length(height.marginMm)} to spare under the top.</li>
        ))}
      {astray.map(({ service, widthMm }, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two services may be alike
        <li key={at} className="alert">
          {serviceWord[service.kind]} at {length(service.offsetMm)}, {length(service.heightMm)} high, lies
          outside the equipment: {length(widthMm)} wide, under the top.
        </li>
      ))}
    </ul>
  );
};
