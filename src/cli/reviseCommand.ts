import { basename } from 'node:path';
import type { ApiInput, ApiOutput } from '../app/apiMethods.ts';
import type { SheetId } from '../document/ids.ts';
import type { ProjectDocument, Sheet } from '../document/projectDocument.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { projectIdOf } from './projectIdOf.ts';
import { readInputFile } from './readInputFile.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';

const usage =
  'footrail revise PROJECT PLAN.pdf [--sheet NAME|ID] [--page N] [--name B] [--no-follow] [--picks x,y,X,Y,x,y,X,Y] [--password P] [--old-password P] [--unit mm|ft-in] [--dry-run] [--force] [--archive DIR] [--json]';

type Registration = ApiOutput<'register-revision'>['registration'];
type Finding = ApiOutput<'revise-sheet'>['findings'][number];
type Change = ApiOutput<'compare-revision'>['changes'][number];
type Picks = NonNullable<ApiInput<'register-revision'>['picks']>;

const bad = (message: string, path: string): CommandError =>
  new CommandError({ code: 'bad-arguments', message: `${message} Usage: ${usage}`, path });

/** `x,y,X,Y` for each place: on the old sheet, then on the new page, in user-space units. */
const picksOf = (text: string | undefined): Picks | undefined => {
  if (text === undefined) return undefined;
  const numbers = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (numbers.length < 8 || numbers.length % 4 !== 0 || !numbers.every(Number.isFinite))
    throw bad(
      '--picks takes x,y on the old sheet and X,Y on the new page for each of at least two places.',
      '--picks',
    );
  return Array.from({ length: numbers.length / 4 }, (_, index) => {
    const [x = 0, y = 0, newX = 0, newY = 0] = numbers.slice(4 * index, 4 * index + 4);
    return { old: { x, y }, new: { x: newX, y: newY } };
  });
};

/** The sheet that is meant: named, or the only one that no other follows. */
const sheetOf = (document: ProjectDocument, wanted: string | undefined): Sheet => {
  const followed = new Set(
    Object.values(document.sheets).flatMap(({ revisionOf }) => revisionOf?.supersedes ?? []),
  );
  const sheets = document.sheetIds.flatMap((id) => document.sheets[id] ?? []);
  const inForce = sheets.filter(({ id }) => !followed.has(id));
  const listed = inForce.map(({ id, name }) => `${name} (${id})`).join(', ') || 'none';
  if (wanted === undefined) {
    const [only] = inForce;
    if (only && inForce.length === 1) return only;
    throw new CommandError({
      code: 'sheet-unclear',
      message: `Say with --sheet which sheet the plan follows; in force: ${listed}.`,
      path: '--sheet',
    });
  }
  const byId = document.sheets[wanted as SheetId];
  if (byId) return byId;
  const named = inForce.filter(({ name }) => name === wanted);
  const [only] = named;
  if (only && named.length === 1) return only;
  throw new CommandError({
    code: named.length > 1 ? 'sheet-unclear' : 'sheet-missing',
    message: `${named.length > 1 ? 'Several sheets are' : 'No sheet in force is'} named "${wanted}"; in force: ${listed}.`,
    path: '--sheet',
  });
};

const nextLetter = (sheet: Sheet): string => {
  const before = sheet.revisionOf?.revision ?? 'A';
  return /^[A-Y]$/.test(before) ? String.fromCharCode(before.charCodeAt(0) + 1) : '';
};

const rounded = (value: number, places: number): string => String(Number(value.toFixed(places)));

const registrationWords = (registration: Registration): readonly string[] => {
  if (!registration.isRegistered)
    return ['Not registered: nothing says how the new page lies to the old one.', ...registration.reasons];
  const { isSure, method, map, plusMinusPt, reasons, changes } = registration;
  const scale = Math.hypot(map.a, map.b);
  const turnDeg = (Math.atan2(map.b, map.a) * 180) / Math.PI;
  return [
    `Registered by ${method === 'picks' ? 'picked places' : 'linework'}, ${isSure ? 'sure' : 'NOT SURE'}`,
    `  map: size x ${rounded(scale, 5)}, turned ${rounded(turnDeg, 3)}°, moved ${rounded(map.e, 2)}, ${rounded(map.f, 2)} pt; ± ${rounded(plusMinusPt, 2)} pt (k = 2)`,
    ...reasons.map((reason) => `  ${reason}`),
    `  lines: ${changes.gone.length} gone, ${changes.added.length} added, ${changes.moved.length} of them moved`,
  ];
};

const findingWords = (findings: readonly Finding[]): readonly string[] => [
  findings.length === 0 ? 'Nothing that runs lie on moved.' : 'What runs lie on:',
  ...findings.map(
    ({ run, where, became, byMm }) =>
      `  ${run}, ${where}: ${became === 'gone' ? 'its line is gone' : `moved by ${rounded(Math.abs(byMm), 1)} mm`}`,
  ),
];

const changeWords = (changes: readonly Change[]): readonly string[] => [
  changes.length === 0 ? 'Nothing changed beyond the uncertainty.' : 'Changed beyond the uncertainty:',
  ...changes.map(({ where, what, was, is }) => `  ${where}, ${what}: ${was || '-'} → ${is || '-'}`),
];

/**
 * `footrail revise`: takes a plan in as the later revision of a sheet, carries the runs over and says what that changes.
 * Exit code 1, with nothing changed in the project, where the page is not registered, or not surely and `--force` is not
 * given. `--dry-run` says how the page lies and changes nothing in the project.
 */
export const reviseCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, count, isOn } = readArguments(args, {
    flags: ['archive', 'sheet', 'page', 'name', 'picks', 'password', 'old-password', 'unit'],
    switches: ['no-follow', 'dry-run', 'force'],
    names: ['PROJECT', 'PLAN.pdf'],
    usage,
  });
  const projectId = projectIdOf(positionals[0] ?? '');
  const path = positionals[1] ?? '';
  const page = count('page', 1) ?? 1;
  const picks = picksOf(text('picks'));
  const unit = text('unit') ?? 'mm';
  if (unit !== 'mm' && unit !== 'ft-in') throw bad(`--unit is mm or ft-in, not "${unit}".`, '--unit');
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  const bytes = await readInputFile(path);

  return withArchive(folder, async ({ api }) => {
    const { document, revision } = await callApi(api, 'open-project', { projectId });
    const old = sheetOf(document, text('sheet'));
    const name = text('name') ?? nextLetter(old);
    const password = text('password');
    const { sha256 } = await callApi(api, 'take-in-plan', {
      fileName: basename(path),
      bytes,
      password,
    });
    const revised = {
      projectId,
      sheetId: old.id,
      sha256,
      page,
      password,
      oldPassword: text('old-password'),
      picks,
    };
    const { registration } = await callApi(api, 'register-revision', revised);
    const isEnough = registration.isRegistered && (registration.isSure || isOn('force'));
    const { isRegistered, reasons } = registration;
    const shown = registration.isRegistered
      ? {
          isRegistered,
          isSure: registration.isSure,
          method: registration.method,
          map: registration.map,
          plusMinusPt: registration.plusMinusPt,
          reasons,
          lines: {
            gone: registration.changes.gone.length,
            added: registration.changes.added.length,
            moved: registration.changes.moved.length,
          },
        }
      : { isRegistered, reasons };
    const sheet = { sheetId: old.id, name: old.name };
    const base = { projectId, follows: sheet, planSha256: sha256, page, registration: shown };
    const words = [`${document.job.name}: ${old.name}`, ...registrationWords(registration)];
    if (!isEnough || isOn('dry-run'))
      return {
        exitCode: isEnough ? 0 : 1,
        value: { ...base, isRevised: false, sheetId: null, findings: [], changes: [], revision },
        text: [
          ...words,
          isEnough
            ? 'Dry run: the project stays as it is.'
            : registration.isRegistered
              ? 'The project stays as it is. Look at the sheets, pick places with --picks, or say --force.'
              : 'The project stays as it is. Name the same two places on both with --picks.',
        ].join('\n'),
      };
    const taken = await callApi(api, 'revise-sheet', {
      ...revised,
      revision,
      name,
      follow: !isOn('no-follow'),
    });
    const { sheetId, findings } = taken;
    const { changes } = await callApi(api, 'compare-revision', { projectId, sheetId, unit });
    return {
      exitCode: 0,
      value: { ...base, isRevised: true, sheetId, findings, changes, revision: taken.revision },
      text: [...words, ...findingWords(findings), ...changeWords(changes)].join('\n'),
    };
  });
};
