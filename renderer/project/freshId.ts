const alphabet = '0123456789abcdefghijklmnopqrstuvwxyz';

let counter = 0;

/** A fresh id part: time first, so that later ids sort after earlier ones, then a count, then chance. */
export const freshId = (): string => {
  counter = (counter + 1) % 1296;
  const chance = [...crypto.getRandomValues(new Uint8Array(6))].map((byte) => alphabet[byte % 36]).join('');
  return `${Date.now().toString(36)}${counter.toString(36).padStart(2, '0')}${chance}`;
};
