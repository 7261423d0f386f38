/** `1:50`, with as many decimals as mean something. */
export const ratioWords = (ratio: number): string => {
  const decimals = ratio >= 1000 ? 0 : ratio >= 100 ? 1 : 2;
  return `1:${Number(ratio.toFixed(decimals))}`;
};

/** `± 0.2 %`, rounded up in its last digit. */
export const percentWords = (relative: number): string => {
  const percent = relative * 100;
  const decimals = percent >= 10 ? 0 : percent >= 1 ? 1 : 2;
  const step = 10 ** decimals;
  return `±\u00a0${(Math.ceil(percent * step - 1e-9) / step).toFixed(decimals)}\u00a0%`;
};
