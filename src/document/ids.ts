import { z } from 'zod';

/**
 * Branded ids. Each carries its kind as a prefix, so that no id can be mistaken for another kind of record, nor for a
 * property that every object has ("constructor", "__proto__").
 */
const idOf = <Kind extends string>(kind: Kind) =>
  z
    .string()
    .regex(new RegExp(`^${kind}-[A-Za-z0-9]{1,40}$`), `expected an id like "${kind}-1a2b"`)
    .brand<Kind>();

export const projectIdSchema = idOf('project');
export const sheetIdSchema = idOf('sheet');
export const referenceIdSchema = idOf('reference');
export const runIdSchema = idOf('run');
export const vertexIdSchema = idOf('vertex');
export const zoneIdSchema = idOf('zone');
export const stationIdSchema = idOf('station');
export const wayInIdSchema = idOf('way-in');
export const obstacleIdSchema = idOf('obstacle');

export type ProjectId = z.infer<typeof projectIdSchema>;
export type SheetId = z.infer<typeof sheetIdSchema>;
export type ReferenceId = z.infer<typeof referenceIdSchema>;
export type RunId = z.infer<typeof runIdSchema>;
export type VertexId = z.infer<typeof vertexIdSchema>;
export type ZoneId = z.infer<typeof zoneIdSchema>;
export type StationId = z.infer<typeof stationIdSchema>;
export type WayInId = z.infer<typeof wayInIdSchema>;
export type ObstacleId = z.infer<typeof obstacleIdSchema>;
