/**
 * How many random cases a campaign runs: the full count when `FOOTRAIL_CAMPAIGN=full`, else the fixed-seed sample
 * that every `npm test` runs.
 *
 * @example campaignSize({ sample: 40, full: 500 }) // 40 in `npm test`, 500 in `npm run campaign`
 */
export const campaignSize = (count: { readonly sample: number; readonly full: number }): number =>
  process.env['FOOTRAIL_CAMPAIGN'] === 'full' ? count.full : count.sample;
