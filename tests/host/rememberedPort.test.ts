import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { parseHostArguments } from '../../src/host/hostArguments.ts';
import { rememberedPort, rememberPort, startOnPort } from '../../src/host/rememberedPort.ts';

const temporaryFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'footrail-port-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

const close = (server: Server): Promise<void> => new Promise((resolve) => server.close(() => resolve()));
const portOf = (server: Server): number => (server.address() as AddressInfo).port;
const listen = (port: number): Promise<Server> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => {
      onTestFinished(async () => {
        if (server.listening) await close(server);
      });
      resolve(server);
    });
  });
const start = (archiveFolder: string, asked: number | null = null): Promise<Server> =>
  startOnPort({ asked, archiveFolder }, listen, portOf);

describe('the port of an archive’s host', () => {
  it('is the one that it had last', async () => {
    const folder = temporaryFolder();
    const first = await start(folder);
    const port = portOf(first);
    await close(first);
    for (let again = 0; again < 3; again += 1) {
      const next = await start(folder);
      expect(portOf(next)).toBe(port);
      await close(next);
    }
  });

  it('is another where that one is taken, and the first comes back to its own', async () => {
    const folder = temporaryFolder();
    const first = await start(folder);
    const port = portOf(first);
    const second = await start(folder);
    expect(portOf(second)).not.toBe(port);
    await close(first);
    await close(second);
    expect(portOf(await start(folder))).toBe(port);
  });

  it('is the one asked for, which is refused in words where it is taken, and not remembered', async () => {
    const folder = temporaryFolder();
    const taken = portOf(await listen(0));
    await expect(start(folder, taken)).rejects.toThrow(/can’t be had/);
    await start(folder, 0);
    expect(rememberedPort(folder)).toBeNull();
    expect(parseHostArguments([])).toMatchObject({ value: { port: null } });
    expect(parseHostArguments(['--port', '0'])).toMatchObject({ value: { port: 0 } });
  });

  it('is any free one where what is kept is no port of ours, or nothing can be kept', async () => {
    const folder = temporaryFolder();
    for (const kept of ['', '80\n', '99999', '12x4', '-1', '8080\n8081', '\u0000'.repeat(5)]) {
      writeFileSync(join(folder, 'host-port'), kept);
      expect(rememberedPort(folder), JSON.stringify(kept)).toBeNull();
    }
    expect(rememberPort(folder, 49_200)).toBe(true);
    expect(readFileSync(join(folder, 'host-port'), 'utf8')).toBe('49200\n');
    expect(rememberPort(join(folder, 'nowhere'), 49_200)).toBe(false);
    expect(portOf(await start(join(folder, 'nowhere')))).toBeGreaterThan(0);
  });

  it('is neither read from nor written to a link or a pipe that someone put there', async () => {
    if (process.platform === 'win32') return;
    const folder = temporaryFolder();
    const elsewhere = join(folder, 'of someone else');
    writeFileSync(elsewhere, '45678\n');
    symlinkSync(elsewhere, join(folder, 'host-port'));
    expect(rememberedPort(folder)).toBeNull();
    expect(rememberPort(folder, 45_679)).toBe(false);
    expect(readFileSync(elsewhere, 'utf8')).toBe('45678\n');
    rmSync(join(folder, 'host-port'));
    execFileSync('python3', ['-c', 'import os, sys; os.mkfifo(sys.argv[1])', join(folder, 'host-port')]);
    expect(rememberedPort(folder)).toBeNull();
    expect(rememberPort(folder, 45_679)).toBe(false);
    rmSync(join(folder, 'host-port'));
    writeFileSync(join(folder, 'host-port'), '45678\n'.repeat(1_000_000));
    expect(rememberedPort(folder)).toBeNull();
  });
});
