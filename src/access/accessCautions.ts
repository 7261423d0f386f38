import { HANDLING_LIMITS, HANDLING_SOURCE } from './handlingGuidance.ts';

/** Sentences that go with every answer about access. */
export const ACCESS_CAUTIONS: readonly string[] = [
  'This is guidance for ordering, not a lifting plan. A competent person on site decides how each piece is moved; local rules come first.',
  'Geometry only: hands, packing that bulges, handrails, door closers, lamps and pipes need room of their own.',
  `People per piece follow published guidance. ${HANDLING_LIMITS} Source: ${HANDLING_SOURCE}`,
];

/** Cautions for single pieces or obstacles, by code. */
export const ACCESS_CAUTION_TEXTS = {
  'needs-handling-aid':
    'Heavier than the guidance allows a team of three to lift. Use a trolley, skate or hoist, or take the piece apart.',
  'lower-end-carries-most': 'On stairs and ramps the person at the lower end carries most of the load.',
  'pitch-not-given':
    'The pitch of the stair is not given, so headroom is taken as the clear height square to the slope. Measure it so, or give the pitch.',
  'car-position-only':
    'The piece passes the door of the lift and lies in its car, but it must be turned or stood up on the way from the one into the other; that this can be done is not proved. Try it with a template.',
  'outer-corner-not-counted':
    'Past a right angle a piece may also be backed into the outer corner and drawn out the other way, where that corner is as deep as its two walls make it. This is not counted as passing: look at the corner on site.',
  'people-not-counted':
    'The rated load is held against the piece alone; people and trolleys that ride with it count too.',
} as const;

export type AccessCautionCode = keyof typeof ACCESS_CAUTION_TEXTS;
