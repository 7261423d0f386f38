import type { Page } from 'playwright-core';
import type { DesktopBridge, MenuChoice } from '../../src/app/desktopBridge.ts';
import type { StandInContents } from '../electron/standInContents.ts';
import { packBytes, unpackBytes } from './bytesInJson.ts';

interface PageBinding {
  readonly bridgeCall: (id: number, method: string, input: unknown) => Promise<unknown>;
  readonly bridgeCancel: (id: number) => Promise<void>;
  readonly bridgeAsk: (name: 'pickPlan' | 'saveFile', argument: unknown) => Promise<unknown>;
  readonly bridgeOffer: (choices: readonly MenuChoice[]) => Promise<void>;
  menuChosen?: (choice: MenuChoice) => void;
}

/**
 * Gives a real browser's page the `window.footrail` that the preload put on the stand-in's page: each function there
 * calls the one here. The browser's wire carries JSON, so bytes are packed on the way.
 */
export const putBridgeOnPage = async (page: Page, contents: StandInContents): Promise<void> => {
  const bridge = (): DesktopBridge => contents.exposed['footrail'] as DesktopBridge;
  const cancels = new Map<number, () => void>();

  await page.exposeFunction(
    'bridgeCall',
    async (id: number, method: keyof DesktopBridge['api'], input: unknown) => {
      const { answer, cancel } = bridge().api[method](unpackBytes(input));
      cancels.set(id, cancel);
      const settled = await answer;
      cancels.delete(id);
      return packBytes(settled);
    },
  );
  await page.exposeFunction('bridgeCancel', (id: number) => cancels.get(id)?.());
  await page.exposeFunction('bridgeAsk', async (name: 'pickPlan' | 'saveFile', argument: unknown) =>
    packBytes(
      name === 'pickPlan'
        ? await bridge().pickPlan()
        : await bridge().saveFile(unpackBytes(argument) as Parameters<DesktopBridge['saveFile']>[0]),
    ),
  );
  await page.exposeFunction('bridgeOffer', (choices: readonly MenuChoice[]) =>
    bridge().offerMenuChoices(choices),
  );
  bridge().onMenuChoice((choice) => {
    void page.evaluate((one) => (globalThis as unknown as PageBinding).menuChosen?.(one), choice);
  });

  await page.addInitScript((methods: readonly string[]) => {
    const host = globalThis as unknown as PageBinding & Record<string, unknown>;
    const pack = (value: unknown): unknown => {
      if (value instanceof Uint8Array) {
        let binary = '';
        for (const byte of value) binary += String.fromCharCode(byte);
        return { base64Bytes: btoa(binary) };
      }
      if (Array.isArray(value)) return value.map(pack);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, pack(part)]));
    };
    const unpack = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(unpack);
      if (typeof value !== 'object' || value === null) return value;
      if ('base64Bytes' in value) {
        return Uint8Array.from(atob(value.base64Bytes as string), (character) => character.charCodeAt(0));
      }
      return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, unpack(part)]));
    };
    let lastId = 0;
    const listeners = new Set<(choice: MenuChoice) => void>();
    host.menuChosen = (choice) => {
      for (const listener of listeners) listener(choice);
    };
    const methodFor = (method: string) => (input: unknown) => {
      lastId += 1;
      const id = lastId;
      return {
        answer: host.bridgeCall(id, method, pack(input)).then(unpack),
        cancel: () => void host.bridgeCancel(id),
      };
    };
    host['footrail'] = {
      api: Object.fromEntries(methods.map((method) => [method, methodFor(method)])),
      pickPlan: () => host.bridgeAsk('pickPlan', null).then(unpack),
      saveFile: (file: unknown) => host.bridgeAsk('saveFile', pack(file)).then(unpack),
      offerMenuChoices: (choices: readonly MenuChoice[]) => void host.bridgeOffer(choices),
      onMenuChoice: (listener: (choice: MenuChoice) => void) => {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
    };
  }, Object.keys(bridge().api));
};
