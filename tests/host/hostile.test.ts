import { describe, expect, it } from 'vitest';
import { apiMethods } from '../../src/app/apiMethods.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { echoApi, sendRaw, startHostForTest } from './startedHost.ts';

const plenty = { burst: 1e9, perSecond: 1e9 };

describe('the loopback host turns away', () => {
  it.each([
    'localhost',
    'evil.example',
    '127.0.0.1.evil.example',
    '127.0.0.1',
    '127.0.0.1:1',
    '[::1]',
    '0x7f000001',
    '2130706433',
  ])('a request for the host "%s", as DNS rebinding makes them', async (name) => {
    const api = echoApi();
    const host = await startHostForTest({ api });
    const cookie = await host.enter();
    for (const path of ['/', '/api/list-projects', `/?token=${host.token}`]) {
      const answer = await host.send(
        {
          path,
          method: path.startsWith('/api/') ? 'POST' : 'GET',
          headers: { host: name, cookie, origin: host.address, 'content-type': 'application/json' },
        },
        path.startsWith('/api/') ? '{}' : undefined,
      );
      expect(answer.status).toBe(403);
      expect(answer.json()).toMatchObject({ error: { code: 'wrong-host' } });
    }
    expect(api.calls).toEqual([]);
  });

  it('a request with two Host headers', async () => {
    const host = await startHostForTest();
    const own = `host: 127.0.0.1:${host.port}\r\n`;
    expect(await sendRaw(host.port, `GET / HTTP/1.1\r\n${own}host: evil.example\r\n\r\n`)).toMatch(
      /^HTTP\/1\.1 40[03] /,
    );
  });

  it.each([
    'null',
    'http://evil.example',
    'http://localhost',
    'https://127.0.0.1',
    'http://127.0.0.1',
    'file://',
    '',
  ])('a call from the origin "%s"', async (origin) => {
    const api = echoApi();
    const host = await startHostForTest({ api });
    const answer = await host.post('list-projects', '{}', { origin });
    expect(answer.status).toBe(403);
    expect(answer.json()).toMatchObject({ error: { code: 'wrong-origin' } });
    expect(api.calls).toEqual([]);
  });

  it('a call without an origin, which no page of ours makes', async () => {
    const host = await startHostForTest();
    const cookie = await host.enter();
    const headers = { cookie, 'content-type': 'application/json' };
    const answer = await host.send({ path: '/api/list-projects', method: 'POST', headers }, '{}');
    expect(answer.status).toBe(403);
  });

  it.each(['cross-site', 'same-site'])('what a %s page asks for, cookie or not', async (site) => {
    const host = await startHostForTest();
    const cookie = await host.enter();
    for (const path of ['/', '/assets/index-1a2b.js'])
      expect((await host.send({ path, headers: { cookie, 'sec-fetch-site': site } })).status).toBe(403);
  });

  it('a preflight, without a word about who may', async () => {
    const host = await startHostForTest();
    const answer = await host.send({
      path: '/api/fit',
      method: 'OPTIONS',
      headers: { origin: 'http://evil.example', 'access-control-request-method': 'POST' },
    });
    expect(answer.status).toBe(403);
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });

  it('who has no cookie, a wrong one, or one of another port', async () => {
    const api = echoApi();
    const host = await startHostForTest({ api });
    const cookie = await host.enter();
    const [, secret = ''] = cookie.split('=');
    const wrong = [
      '',
      `footrail-${host.port}=`,
      `footrail-${host.port}=${secret.slice(1)}`,
      `footrail-${host.port}=${secret}x`,
      `footrail-1=${secret}`,
      `Footrail-${host.port}=${secret}`,
      `footrail-${host.port}=${host.token}`,
    ];
    for (const value of wrong) {
      expect((await host.post('fit', '{}', { cookie: value })).status).toBe(401);
      expect((await host.send({ path: '/', headers: { cookie: value } })).status).toBe(401);
    }
    expect(api.calls).toEqual([]);
  });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..%5csecret.txt',
    '/assets/..%2f..%2fsecret.txt',
    '//secret.txt',
    '/./index.html',
    '/link.txt',
    '/index.html%00.js',
    '/assets',
    '/assets/',
    '/assets/index-1a2b.js.map',
    '/INDEX.HTML',
    '/constructor',
    '/__proto__',
    '/etc/passwd',
  ])('the path %s', async (path) => {
    const host = await startHostForTest();
    const answer = await host.send({ path, headers: { cookie: await host.enter() } });
    expect(answer.status).toBe(404);
    expect(answer.body.toString()).not.toContain('outside');
  });

  it.each(['http://evil.example/', '*', '/%', '/%c3%28'])('the request target %s', async (target) => {
    const host = await startHostForTest();
    const answer = await sendRaw(
      host.port,
      `GET ${target} HTTP/1.1\r\nhost: 127.0.0.1:${host.port}\r\nconnection: close\r\n\r\n`,
    );
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /);
  });

  it.each(['constructor', '__proto__', 'toString', 'Fit', 'fit/', '', '../fit', 'fit%00', 'list-projects '])(
    'the method "%s"',
    async (method) => {
      const api = echoApi();
      const host = await startHostForTest({ api });
      const answer = await host.post(encodeURIComponent(method), '{}');
      expect(answer.status).toBe(404);
      expect(answer.json()).toMatchObject({ error: { code: 'unknown-method' } });
      expect(api.calls).toEqual([]);
    },
  );

  it.each(['GET', 'PUT', 'DELETE', 'PATCH', 'HEAD'])('a call by %s', async (method) => {
    const host = await startHostForTest();
    const headers = { cookie: await host.enter(), origin: host.address };
    expect((await host.send({ path: '/api/fit', method, headers })).status).toBe(405);
  });

  it.each([
    ['text/plain', 'fit'],
    ['application/x-www-form-urlencoded', 'fit'],
    ['multipart/form-data; boundary=x', 'take-in-plan'],
    ['application/octet-stream', 'fit'],
    ['', 'fit'],
    ['application/json-seq', 'fit'],
  ])('a body of the type "%s" for %s', async (type, method) => {
    const host = await startHostForTest();
    const answer = await host.post(method, '{}', { 'content-type': type });
    expect(answer.status).toBe(415);
  });

  it('a body in disguise', async () => {
    const host = await startHostForTest();
    expect((await host.post('fit', '{}', { 'content-encoding': 'gzip' })).status).toBe(415);
  });

  it.each([
    ['a', 'malformed-json'],
    ['{"__proto__":1}', 'forbidden-key'],
    ['['.repeat(200_000), 'malformed-json'],
  ])('input that is no good, with its reason', async (body, code) => {
    const host = await startHostForTest();
    const answer = await host.post('fit', body);
    expect(answer.status).toBe(400);
    expect(answer.json()).toMatchObject({ error: { code } });
  });

  it.each([undefined, 'not base64!', 'e30=', Buffer.from('{').toString('base64url')])(
    'a file with the input header %s',
    async (header) => {
      const host = await startHostForTest();
      const headers: Record<string, string> = { 'content-type': 'application/octet-stream' };
      if (header !== undefined) headers['x-footrail-input'] = header;
      expect((await host.post('take-in-plan', 'bytes', headers)).status).toBe(400);
    },
  );

  it('a body over the limit, announced or not, and takes the next call', async () => {
    const api = echoApi();
    const host = await startHostForTest({ api, limits: { jsonBytesMost: 1000, fileBytesMost: 2000 } });
    const large = JSON.stringify({ problem: 'x'.repeat(1000) });
    expect((await host.post('fit', large)).status).toBe(413);
    const inChunks = await host
      .post('fit', large, { 'transfer-encoding': 'chunked', 'content-length': '' })
      .catch(() => null);
    expect(inChunks === null || inChunks.status === 413 || inChunks.status === 400).toBe(true);
    const head = `POST /api/fit HTTP/1.1\r\nhost: 127.0.0.1:${host.port}\r\norigin: ${host.address}\r\ncookie: ${await host.enter()}\r\ncontent-type: application/json\r\n`;
    const chunk = `${(600).toString(16)}\r\n${'1'.repeat(600)}\r\n`;
    expect(await sendRaw(host.port, `${head}transfer-encoding: chunked\r\n\r\n${chunk}${chunk}`)).toMatch(
      /^HTTP\/1\.1 413 /,
    );
    const input = Buffer.from('{}').toString('base64url');
    const file = { 'content-type': 'application/octet-stream', 'x-footrail-input': input };
    expect((await host.post('take-in-plan', 'x'.repeat(2001), file)).status).toBe(413);
    expect(api.calls).toEqual([]);
    expect((await host.post('take-in-plan', 'x'.repeat(2000), file)).status).toBe(200);
  });

  it('bodies that together are more than it holds', async () => {
    const host = await startHostForTest({ limits: { heldBytesMost: 500 } });
    const answer = await host.post('fit', JSON.stringify({ problem: 'x'.repeat(600) }));
    expect(answer.status).toBe(503);
    expect((await host.post('fit', '{}')).status).toBe(200);
  });

  it('headers over the limit, and says so', async () => {
    const host = await startHostForTest();
    const answer = await sendRaw(
      host.port,
      `GET / HTTP/1.1\r\nhost: 127.0.0.1:${host.port}\r\nx: ${'a'.repeat(40_000)}\r\n\r\n`,
    );
    expect(answer).toMatch(/^HTTP\/1\.1 431 /);
  });

  it('whoever sends headers or a body drop by drop', async () => {
    const host = await startHostForTest({ limits: { headersTimeoutMs: 1000, requestTimeoutMs: 1500 } });
    const own = `host: 127.0.0.1:${host.port}\r\n`;
    const [slowHeaders, slowBody] = await Promise.all([
      sendRaw(host.port, `GET / HTTP/1.1\r\n${own}x: `, 20_000),
      sendRaw(
        host.port,
        `POST /api/fit HTTP/1.1\r\n${own}origin: ${host.address}\r\ncookie: ${await host.enter()}\r\ncontent-type: application/json\r\ncontent-length: 100\r\n\r\n{`,
        20_000,
      ),
    ]);
    expect(slowHeaders).toMatch(/^HTTP\/1\.1 (408|400) /);
    expect(slowBody).toMatch(/^HTTP\/1\.1 (408|400) |^$/);
    expect((await host.post('fit', '{}')).status).toBe(200);
  });

  it('an upgrade and a tunnel', async () => {
    const host = await startHostForTest();
    const own = `host: 127.0.0.1:${host.port}\r\n`;
    const upgrade = `GET / HTTP/1.1\r\n${own}connection: upgrade\r\nupgrade: websocket\r\n\r\n`;
    expect(await sendRaw(host.port, upgrade)).toBe('');
    expect(
      await sendRaw(host.port, `CONNECT evil.example:443 HTTP/1.1\r\nhost: evil.example:443\r\n\r\n`),
    ).toBe('');
  });

  it('too many requests, of strangers without hindering its own page', async () => {
    const host = await startHostForTest({ limits: { refusedRate: { burst: 5, perSecond: 0.001 } } });
    const statuses: number[] = [];
    for (let count = 0; count < 10; count += 1)
      statuses.push((await host.send({ path: `/?token=${count}` })).status);
    expect(statuses).toEqual([403, 403, 403, 403, 403, 429, 429, 429, 429, 429]);
    expect((await host.post('fit', '{}')).status).toBe(200);
  });

  it('too many requests of its own page', async () => {
    const host = await startHostForTest({ limits: { admittedRate: { burst: 3, perSecond: 0.001 } } });
    const statuses: number[] = [];
    for (let count = 0; count < 5; count += 1) statuses.push((await host.post('fit', '{}')).status);
    expect(statuses).toEqual([200, 200, 200, 429, 429]);
  });

  it('more calls at once than it takes', async () => {
    const waiting: (() => void)[] = [];
    const call = () =>
      new Promise<{ ok: true; value: object }>((resolve) => {
        waiting.push(() => resolve({ ok: true, value: {} }));
      });
    const host = await startHostForTest({ api: { call }, limits: { callsMost: 2 } });
    await host.enter();
    const calls = [host.post('fit', '{}'), host.post('fit', '{}')];
    while (waiting.length < 2) await new Promise(setImmediate);
    expect((await host.post('fit', '{}')).status).toBe(503);
    for (const answer of waiting) answer();
    expect((await Promise.all(calls)).map(({ status }) => status)).toEqual([200, 200]);
  });
});

/** Numbers that a seed gives (xorshift, 32 bit). */
const numbersOf = (seed: number) => {
  let state = seed | 1;
  return (below: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
};

const seed = 20_270_315;
const requests = campaignSize({ sample: 150, full: 3000 });

describe('hostile requests', () => {
  it(`by the number (${requests}, seed ${seed}): none gets in, none ends the host`, {
    timeout: 600_000,
  }, async () => {
    const api = echoApi();
    const defects: unknown[] = [];
    const host = await startHostForTest({
      api,
      limits: { admittedRate: plenty, refusedRate: plenty, headersTimeoutMs: 2000, requestTimeoutMs: 2000 },
      onDefect: (error) => defects.push(error),
    });
    const cookie = await host.enter();
    const next = numbersOf(seed);
    const pick = <Value>(list: readonly Value[]): Value => list[next(list.length)]!;
    const noise = (length: number) => String.fromCharCode(...Array.from({ length }, () => 1 + next(255)));
    const methods = [...Object.keys(apiMethods), 'constructor', '__proto__', '..', noise(8)];
    const wrongTargets = () => [
      `/api/${encodeURIComponent(pick(methods))}`,
      `/${pick(['..', '%2e%2e', '.', '%00', 'assets'])}/${pick(['secret.txt', 'link.txt', '%', noise(5)])}`,
      `/?token=${pick(['', host.token, noise(43), host.token.slice(1)])}`,
      pick(['*', 'http://evil.example/', noise(20)]),
    ];
    /** Mostly what the host's own page would send. */
    const spoil = (right: string, wrong: readonly string[]): string => (next(4) ? right : pick(wrong));
    let admitted = 0;
    for (let count = 0; count < requests; count += 1) {
      const hostName = spoil(`127.0.0.1:${host.port}`, ['evil.example', '', noise(5)]);
      const origin = spoil(host.address, ['http://evil.example', 'null', '', noise(5)]);
      const sent = spoil(cookie, ['', cookie.slice(0, -2), `footrail-${host.port}=${noise(43)}`]);
      const isStranger = hostName !== `127.0.0.1:${host.port}` || origin !== host.address || sent !== cookie;
      const body = spoil('{}', [
        '',
        '{',
        '{"__proto__":{}}',
        '['.repeat(5000),
        noise(200),
        '"\\ud800"',
        '1e999',
      ]);
      const lines = [
        `${spoil('POST', ['GET', 'PUT', 'HEAD', 'BREW', noise(3)])} ${spoil('/api/list-projects', wrongTargets())} HTTP/1.1`,
        `host: ${hostName}`,
        `origin: ${origin}`,
        `cookie: ${sent}`,
        `content-type: ${spoil('application/json', ['application/octet-stream', 'text/plain', noise(4)])}`,
        `content-length: ${next(10) ? body.length : next(1000)}`,
        ...(next(5) ? [] : [`x-footrail-input: ${pick(['e30', noise(9), '_'.repeat(9000)])}`]),
        ...(next(9) ? [] : [`transfer-encoding: ${pick(['chunked', 'gzip', noise(4)])}`]),
        ...(next(9) ? [] : [`${noise(3)}: ${noise(9)}`]),
        'connection: close',
      ];
      const before = api.calls.length;
      const answer = await sendRaw(host.port, `${lines.join('\r\n')}\r\n\r\n${body}`, 100);
      const status = Number(/^HTTP\/1\.1 (\d{3}) /.exec(answer)?.[1] ?? 0);
      if (answer.includes('outside')) throw new Error(`request ${count}: a file outside came out`);
      if (isStranger && (api.calls.length > before || (status >= 200 && status < 400)))
        throw new Error(`request ${count} got in with status ${status}:\n${lines.join('\n')}`);
      admitted += api.calls.length - before;
    }
    expect(defects).toEqual([]);
    expect(admitted).toBeGreaterThan(0);
    expect((await host.post('fit', '{}')).status).toBe(200);
  });
});
