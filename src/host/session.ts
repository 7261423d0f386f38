import { hash, randomBytes, timingSafeEqual } from 'node:crypto';

const secret = (): string => randomBytes(32).toString('base64url');

/** Compares in a time that does not depend on where the two differ, nor on their lengths. */
const isSame = (one: string, other: string): boolean =>
  timingSafeEqual(hash('sha256', one, 'buffer'), hash('sha256', other, 'buffer'));

/**
 * Who may talk to the host. The token of the printed address is good once; it buys a cookie that no script can read
 * and that no other site's page can send.
 */
export interface Session {
  readonly token: string;
  /** The `Set-Cookie` value when the token is the right one and not spent yet, which it then is; else null. */
  readonly exchange: (token: string) => string | null;
  /** True when the `Cookie` header carries the secret that was handed out. */
  readonly admits: (cookieHeader: string | undefined) => boolean;
}

/** @param port part of the cookie's name, because browsers send a cookie to every port of a host */
export const createSession = (port: number, token: string = secret()): Session => {
  const value = secret();
  const name = `footrail-${port}`;
  let isSpent = false;
  return {
    token,
    exchange: (given) => {
      if (!isSame(given, token) || isSpent) return null;
      isSpent = true;
      return `${name}=${value}; Path=/; HttpOnly; SameSite=Strict`;
    },
    admits: (cookieHeader = '') =>
      cookieHeader
        .split(';')
        .map((pair) => pair.trim())
        .some((pair) => pair.startsWith(`${name}=`) && isSame(pair.slice(name.length + 1), value)),
  };
};
