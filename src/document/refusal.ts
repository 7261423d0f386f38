/** Why a command was refused: a reason code, which record it is about, and a sentence to show. */
export interface Refusal {
  readonly code: RefusalCode;
  readonly message: string;
  /** The record or field, as a path in the command. */
  readonly path: string;
}

const sentences = {
  'sheet-missing': 'That sheet is no longer in the project.',
  'sheet-exists': 'That sheet is in the project already.',
  'sheet-in-use': 'Runs are traced on this sheet. Remove them first, then the sheet.',
  'sheet-in-way-in':
    'Widths of a way in are picked on this sheet. Type them or remove them first, then the sheet.',
  'reference-missing': 'That known dimension is no longer in the project.',
  'reference-exists': 'That known dimension is in the project already.',
  'reference-too-short': 'The two points of a known dimension lie on one another. Pick two points apart.',
  'run-missing': 'That run is no longer in the project.',
  'run-exists': 'That run is in the project already.',
  'run-order-incomplete': 'The new order must name every run of the project once.',
  'vertex-missing': 'That point is no longer part of the run.',
  'vertex-exists': 'That point is part of the run already.',
  'vertices-coincide': 'Two neighbouring points of a run lie on one another. Move one of them apart.',
  'index-out-of-range': 'There is no such place in the run’s front line.',
  'too-few-vertices': 'A run needs two points. Remove the whole run instead.',
  'corner-at-end': 'The first and the last point of a run are ends, not corners.',
  'through-on-chord':
    'The three points lie on one line. Pick a point beside the line between the two ends of the arc.',
  'measure-of-arc': 'An arc has no one length to measure on site. Measure its radius and trace it anew.',
  'supersedes-missing': 'The sheet that this one follows is not in the project.',
  'sheet-superseded': 'A later revision follows this sheet. Remove that one first.',
  'zone-missing': 'That zone is no longer in the project.',
  'zone-exists': 'That zone is in the project already.',
  'station-missing': 'That wanted station is no longer in the project.',
  'station-exists': 'That wanted station is in the project already.',
  'way-in-missing': 'That way in is no longer in the project.',
  'way-in-exists': 'That way in is in the project already.',
  'obstacle-missing': 'That obstacle is no longer part of the way in.',
  'obstacle-exists': 'That obstacle is part of the way in already.',
  'obstacles-too-many': 'A way in takes at most 100 obstacles.',
  'obstacle-kind-fixed': 'An obstacle stays of its kind. Remove it and add another.',
  'pick-too-short': 'The two picked points lie on one another. Pick two points apart.',
  'place-out-of-range': 'There is no such place in the way in.',
  'straight-missing': 'It must lie on a straight: name a point of the front line other than its last.',
} as const;

export type RefusalCode = keyof typeof sentences;

/** A refusal with its sentence. */
export const refusal = (code: RefusalCode, path: string): Refusal => ({
  code,
  message: sentences[code],
  path,
});
