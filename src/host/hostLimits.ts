import { planBytesMost } from '../app/apiShapes.ts';
import type { Rate } from './requestRate.ts';

/** What one client may ask of the host. */
export interface HostLimits {
  /** Largest JSON body, in bytes. A kept fit is the largest input that is no file. */
  readonly jsonBytesMost: number;
  /** Largest body of a call that carries a file, in bytes. */
  readonly fileBytesMost: number;
  /** All bodies being held at one time, in bytes. */
  readonly heldBytesMost: number;
  /** All headers of a request together, in bytes. */
  readonly headerBytesMost: number;
  /** Calls under way at one time. */
  readonly callsMost: number;
  readonly connectionsMost: number;
  /** How long a client may take to send its headers, and its whole request, in ms. */
  readonly headersTimeoutMs: number;
  readonly requestTimeoutMs: number;
  /** Requests that carry the session's cookie. */
  readonly admittedRate: Rate;
  /** Requests that are turned away; past this they get no reason, only 429. */
  readonly refusedRate: Rate;
}

export const defaultHostLimits: HostLimits = {
  jsonBytesMost: 16 * 1024 * 1024,
  fileBytesMost: planBytesMost,
  heldBytesMost: 2 * planBytesMost,
  headerBytesMost: 16 * 1024,
  callsMost: 32,
  connectionsMost: 128,
  headersTimeoutMs: 10_000,
  requestTimeoutMs: 120_000,
  admittedRate: { burst: 2000, perSecond: 500 },
  refusedRate: { burst: 100, perSecond: 10 },
};
