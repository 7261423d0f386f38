// `node build/package/drawIcon.ts`: draws the program's icon from icon.svg as icon.png, from which the packager makes
// each system's own format.
import { readFileSync, writeFileSync } from 'node:fs';
import { createCanvas, loadImage } from '@napi-rs/canvas';

const sidePx = 1024;
const inFolder = (name: string): URL => new URL(name, import.meta.url);

const picture = await loadImage(readFileSync(inFolder('icon.svg')));
const canvas = createCanvas(sidePx, sidePx);
canvas.getContext('2d').drawImage(picture, 0, 0, sidePx, sidePx);
writeFileSync(inFolder('icon.png'), canvas.toBuffer('image/png'));
