import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { serveAppFiles } from '../../electron/main/serveAppFiles.ts';
import { listStaticFiles } from '../../src/host/staticFiles.ts';
import { removeFolders, startShellUnderTest, temporaryFolder } from './shellUnderTest.ts';

afterEach(removeFolders);

const plantPage = () => {
  const folder = join(temporaryFolder(), 'renderer');
  mkdirSync(join(folder, 'assets', 'folder.js'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), '<!doctype html>');
  writeFileSync(join(folder, 'assets', 'main.js'), 'export {};');
  writeFileSync(join(folder, 'assets', 'main.js.map'), '{}');
  writeFileSync(join(folder, '..', 'secret.js'), 'secret');
  mkdirSync(join(folder, '..', 'renderer-neighbour'));
  writeFileSync(join(folder, '..', 'renderer-neighbour', 'secret.js'), 'secret');
  symlinkSync(join(folder, '..', 'secret.js'), join(folder, 'assets', 'link.js'));
  symlinkSync(join(folder, '..'), join(folder, 'up'));
  return listStaticFiles(folder);
};

describe('the app: scheme', () => {
  it('serves the page with its type and a policy without inline code, eval or other places', async () => {
    const response = await serveAppFiles(plantPage())(new Request('app://footrail/index.html'));
    expect(response.status).toBe(200);
    expect(await response.text()).toBe('<!doctype html>');
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
    const policy = response.headers.get('content-security-policy')!;
    expect(policy).toContain("default-src 'none'");
    expect(/script-src ([^;]*)/.exec(policy)?.[1]).toBe("'self' 'wasm-unsafe-eval'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/'unsafe-inline'|'unsafe-eval'|\*|https?:/);
  });

  it('serves it through the whole shell', async () => {
    const { contents } = await startShellUnderTest();
    const response = await contents.request('app://footrail/assets/main.js');
    expect(response?.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(await response?.text()).toBe('export {};\n');
  });

  it('answers HEAD without a body, and no other method than that and GET', async () => {
    const serve = serveAppFiles(plantPage());
    const head = await serve(new Request('app://footrail/index.html', { method: 'HEAD' }));
    expect([head.status, await head.text()]).toEqual([200, '']);
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) {
      expect((await serve(new Request('app://footrail/index.html', { method }))).status).toBe(405);
    }
  });

  it.each([
    'app://footrail/../secret.js',
    'app://footrail/%2e%2e/secret.js',
    'app://footrail/..%2fsecret.js',
    'app://footrail/..%5csecret.js',
    'app://footrail/assets/..%2f..%2fsecret.js',
    'app://footrail/assets/%252e%252e/%252e%252e/secret.js',
    'app://footrail/..%2frenderer-neighbour%2fsecret.js',
    'app://footrail//etc/passwd.js',
    'app://footrail/%2fetc%2fpasswd.js',
    'app://footrail/C:%5cWindows%5cwin.js',
    'app://footrail/index.html%00.js',
    'app://footrail/%',
    'app://footrail/assets/link.js',
    'app://footrail/up/secret.js',
    'app://elsewhere/index.html',
    'app://footrail.example.org/index.html',
    'app://user@footrail/index.html',
    'app:///index.html',
    'file:///etc/passwd.js',
  ])('gives nothing away for %s', async (address) => {
    // A Request refuses addresses with a user name before they get here; Electron's own may not.
    const request = { url: address, method: 'GET' } as Request;
    const response = await serveAppFiles(plantPage())(request);
    expect([403, 404]).toContain(response.status);
    expect(await response.text()).toBe('');
  });

  it.each(['assets/gone.js', 'assets/folder.js', 'assets/main.js.map', 'assets/main.js/x.js'])(
    'has no %s',
    async (path) => {
      const response = await serveAppFiles(plantPage())(new Request(`app://footrail/${path}`));
      expect(response.status).toBe(404);
    },
  );
});
