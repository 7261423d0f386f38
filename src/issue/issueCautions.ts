/** What every document that leaves the house warns of, in the same words everywhere. */
export const issueCautions: readonly string[] = [
  'Measured from a drawing, not from the room: check every dimension on site before ordering or making anything.',
  'Lifting, structural, gas, water, drainage and electrical work is for competent people, licensed where required, under the rules of the place.',
  'Accessible and escape routes are for the local code and its officers to judge: nothing here shows that they comply.',
];
