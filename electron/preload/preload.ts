import { contextBridge, ipcRenderer } from 'electron';
import { exposeBridge } from './exposeBridge.ts';

exposeBridge({ contextBridge, ipcRenderer });
