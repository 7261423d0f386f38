import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { delimiter } from 'node:path';
import { inProject, projectRoot } from './projectPaths.mjs';

/** @type {readonly NodeJS.Signals[]} */
const passedOnSignals = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/** This process's environment with the project's own binaries first on the search path. */
export const projectEnvironment = (extra = {}) => {
  const pathName = Object.keys(process.env).find((name) => name.toLowerCase() === 'path') ?? 'PATH';
  const path = [inProject('node_modules', '.bin'), process.env[pathName]].filter(Boolean).join(delimiter);
  return { ...process.env, [pathName]: path, ...extra };
};

/**
 * Runs a program with this one's input and output, and passes on the signals that ask for an end.
 *
 * Resolves with its exit code (128 + the signal's number where a signal ended it, as shells count); rejects where it
 * could not be started.
 *
 * @param {string} file
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnOptions} options
 * @returns {Promise<number>}
 */
export const runProcess = (file, args, options = {}) =>
  new Promise((resolve, reject) => {
    const child = spawn(file, args, { stdio: 'inherit', cwd: projectRoot, ...options });
    /** @param {NodeJS.Signals} signal */
    const passOn = (signal) => child.kill(signal);
    for (const signal of passedOnSignals) process.on(signal, passOn);
    const finish = () => {
      for (const signal of passedOnSignals) process.off(signal, passOn);
    };
    child.once('error', (error) => {
      finish();
      reject(error);
    });
    child.once('close', (code, signal) => {
      finish();
      resolve(code ?? 128 + (signal ? constants.signals[signal] : 0));
    });
  });
