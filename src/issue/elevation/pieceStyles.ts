import type { PenStyle } from '../drawing/drawingPen.ts';

/** The few ways in which a counter's elevation is drawn. */
export const body: PenStyle = { weight: 'medium', fill: 'face' };
export const panel: PenStyle = { weight: 'medium', fill: 'panel' };
export const slab: PenStyle = { weight: 'medium', fill: 'top' };
export const recess: PenStyle = { weight: 'thin', fill: 'recess' };
export const detail: PenStyle = { weight: 'thin', fill: 'face' };
export const content: PenStyle = { weight: 'thin', fill: 'content' };
export const edge: PenStyle = { weight: 'thin' };
export const outline: PenStyle = { weight: 'medium' };
export const heavy: PenStyle = { weight: 'thick' };
export const hidden: PenStyle = { weight: 'thin', type: 'dashed' };
export const fold: PenStyle = { weight: 'thin', type: 'chain' };
export const solid: PenStyle = { fill: 'solid' };
