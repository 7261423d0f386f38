import { describe, expect, it } from 'vitest';
import type { Api } from '../../src/app/createApi.ts';
import { contentSecurityPolicy } from '../../src/host/contentSecurityPolicy.ts';
import { echoApi, sendRaw, startHostForTest } from './startedHost.ts';

const apiThat = (call: Api['call']): Api => ({ call });

/** A promise and what fulfils it. */
const signalled = (): { readonly promise: Promise<void>; readonly resolve: () => void } => {
  let resolve = (): void => {};
  const promise = new Promise<void>((fulfil) => {
    resolve = fulfil;
  });
  return { promise, resolve };
};

describe('the loopback host', () => {
  it('lets the first bearer of the token in, with a cookie that no script reads and no other site sends', async () => {
    const host = await startHostForTest();
    const first = await host.send({ path: `/?token=${host.token}` });
    expect(first.status).toBe(303);
    expect(first.headers.location).toBe('/');
    const [cookie = ''] = first.headers['set-cookie'] ?? [];
    expect(cookie).toMatch(
      new RegExp(`^footrail-${host.port}=[A-Za-z0-9_-]{43}; Path=/; HttpOnly; SameSite=Strict$`),
    );
    const page = await host.send({ path: '/', headers: { cookie: cookie.split(';')[0] ?? '' } });
    expect(page.status).toBe(200);
    expect(page.body.toString()).toContain('<title>Footrail</title>');
  });

  it('takes the token once, and leaves it unspent at a prefetch or a HEAD', async () => {
    const host = await startHostForTest();
    const path = `/?token=${host.token}`;
    expect((await host.send({ path, method: 'HEAD' })).status).toBe(401);
    expect((await host.send({ path, headers: { 'sec-purpose': 'prefetch' } })).status).toBe(401);
    expect((await host.send({ path })).status).toBe(303);
    const again = await host.send({ path });
    expect(again.status).toBe(403);
    expect(again.headers['set-cookie']).toBeUndefined();
    expect(again.body.toString()).toContain('used already');
  });

  it('gives whoever is in the page again at the spent address', async () => {
    const host = await startHostForTest();
    const cookie = await host.enter();
    expect((await host.send({ path: `/?token=${host.token}`, headers: { cookie } })).status).toBe(200);
  });

  it('starts the page afresh where another site’s page led to the address', async () => {
    const host = await startHostForTest();
    const answer = await host.send({
      path: `/?token=${host.token}`,
      headers: { 'sec-fetch-site': 'cross-site' },
    });
    expect(answer.status).toBe(200);
    expect(answer.headers['set-cookie']).toHaveLength(1);
    expect(answer.body.toString()).toContain('http-equiv="refresh" content="0; url=/"');
  });

  it('sends its policies with every answer', async () => {
    const host = await startHostForTest();
    const cookie = await host.enter();
    for (const path of ['/', '/assets/index-1a2b.js', '/nowhere', '/api/fit']) {
      for (const headers of [{ cookie }, {}]) {
        const answer = await host.send({ path, headers });
        expect(answer.headers['content-security-policy']).toMatch(/^default-src 'none'; script-src 'self' /);
        expect(answer.headers['content-security-policy']).not.toMatch(/'unsafe-inline'|'unsafe-eval'|\*/);
        expect(answer.headers['x-content-type-options']).toBe('nosniff');
        expect(answer.headers['cross-origin-opener-policy']).toBe('same-origin');
        expect(answer.headers['cross-origin-embedder-policy']).toBe('require-corp');
        expect(answer.headers['cross-origin-resource-policy']).toBe('same-origin');
        expect(answer.headers['cache-control']).toBeDefined();
        for (const name of Object.keys(answer.headers)) expect(name).not.toMatch(/^access-control-/);
      }
    }
  });

  it('allows no inline script and no inline style', () => {
    expect(contentSecurityPolicy).not.toMatch(/unsafe-inline|sha256-|nonce-/);
  });

  it('carries JSON calls to the API and back', async () => {
    const api = echoApi();
    const host = await startHostForTest({ api });
    const answer = await host.post('fit', JSON.stringify({ problem: { depthMm: 700 } }));
    expect(answer.status).toBe(200);
    expect(answer.json()).toEqual({ method: 'fit', input: { problem: { depthMm: 700 } } });
    expect(api.calls).toHaveLength(1);
  });

  it('carries bytes as the body, and the rest of input and answer in a header', async () => {
    const bytes = Uint8Array.from({ length: 300_000 }, (_, index) => index % 251);
    const api = apiThat(async (_, input) => ({
      ok: true,
      value: { fileName: 'Plan é.pdf', bytes: (input as { bytes: Uint8Array }).bytes.slice().reverse() },
    }));
    const host = await startHostForTest({ api });
    const answer = await host.post('take-in-plan', bytes, {
      'content-type': 'application/octet-stream',
      'x-footrail-input': Buffer.from(JSON.stringify({ fileName: 'a.pdf' })).toString('base64url'),
    });
    expect(answer.headers['content-type']).toBe('application/octet-stream');
    const rest = Buffer.from(String(answer.headers['x-footrail-output']), 'base64url').toString();
    expect(JSON.parse(rest)).toEqual({ fileName: 'Plan é.pdf' });
    expect(new Uint8Array(answer.body)).toEqual(bytes.slice().reverse());
  });

  it.each([
    ['bad-input', 400],
    ['revision-conflict', 409],
    ['project-missing', 404],
    ['sheet-in-use', 422],
    ['archive-full', 507],
    ['archive-damaged', 503],
    ['defect', 500],
    ['constructor', 422],
  ])('answers the error "%s" with status %i', async (code, status) => {
    const error = { code, message: 'Words.', path: 'where' };
    const host = await startHostForTest({ api: apiThat(async () => ({ ok: false, error })) });
    const answer = await host.post('fit', '{}');
    expect(answer.status).toBe(status);
    expect(answer.json()).toEqual({ error });
  });

  it('tells progress line by line, then the answer with its bytes', async () => {
    const api = apiThat(async (_method, _input, context) => {
      context?.onProgress?.(1, 2);
      context?.onProgress?.(2, 2);
      return { ok: true, value: { fileName: 'a', bytes: Uint8Array.of(1, 10, 3) } };
    });
    const host = await startHostForTest({ api });
    const answer = await host.post('plan-bytes', '{}', { accept: 'application/x-ndjson' });
    expect(answer.headers['content-type']).toBe('application/x-ndjson');
    const head =
      '{"progress":{"done":1,"of":2}}\n{"progress":{"done":2,"of":2}}\n{"value":{"fileName":"a"},"byteLength":3}\n';
    expect(answer.body.toString('latin1')).toBe(`${head}\u0001\n\u0003`);
  });

  it('aborts the call when the client goes away', async () => {
    const aborted = signalled();
    const started = signalled();
    const api = apiThat(
      (_method, _input, context) =>
        new Promise((resolve) => {
          started.resolve();
          context?.signal?.addEventListener('abort', () => {
            aborted.resolve();
            resolve({ ok: false, error: { code: 'cancelled', message: 'Cancelled.' } });
          });
        }),
    );
    const host = await startHostForTest({ api });
    const cookie = await host.enter();
    const call = sendRaw(
      host.port,
      `POST /api/fit HTTP/1.1\r\nhost: 127.0.0.1:${host.port}\r\norigin: ${host.address}\r\ncookie: ${cookie}\r\ncontent-type: application/json\r\ncontent-length: 2\r\n\r\n{}`,
      200,
    );
    await started.promise;
    await call;
    await aborted.promise;
  });

  it('lets the client know no more of a fault than that there was one', async () => {
    const defects: unknown[] = [];
    const host = await startHostForTest({
      api: apiThat(() => Promise.reject(new Error('inner words'))),
      onDefect: (error) => defects.push(error),
    });
    const answer = await host.post('fit', '{}');
    expect(answer.status).toBe(500);
    expect(answer.body.toString()).not.toContain('inner words');
    expect(defects).toHaveLength(1);
  });

  it('keeps what the bundler named by content, and nothing of calls or pages', async () => {
    const host = await startHostForTest();
    const cookie = await host.enter();
    const cached = async (path: string) =>
      (await host.send({ path, headers: { cookie } })).headers['cache-control'];
    expect(await cached('/assets/index-1a2b.js')).toBe('private, max-age=31536000, immutable');
    expect(await cached('/')).toBe('no-store');
    expect((await host.post('fit', '{}')).headers['cache-control']).toBe('no-store');
  });

  it('says what to do where the renderer is not built', async () => {
    await expect(startHostForTest({ rendererDir: import.meta.dirname })).rejects.toThrow('npm run build');
  });
});
