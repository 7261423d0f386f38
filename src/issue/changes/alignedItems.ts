/** Two lists side by side: what is in both, only in the first, only in the second. */
export interface Aligned<Item> {
  readonly both: readonly (readonly [before: Item, after: Item])[];
  readonly onlyBefore: readonly Item[];
  readonly onlyAfter: readonly Item[];
}

/**
 * Lines two lists up by the longest sequence of keys that both have in the same order (the textbook dynamic
 * programme for the longest common subsequence), so that a piece put in between leaves the others what they were.
 */
export const alignedItems = <Item>(
  before: readonly Item[],
  after: readonly Item[],
  keyOf: (item: Item) => string,
): Aligned<Item> => {
  const [rows, columns] = [before.length, after.length];
  const isSame = (row: number, column: number): boolean => keyOf(before[row]!) === keyOf(after[column]!);
  // longest[row][column]: of what follows these places.
  const longest = Array.from({ length: rows + 1 }, () => new Int32Array(columns + 1));
  for (let row = rows - 1; row >= 0; row -= 1)
    for (let column = columns - 1; column >= 0; column -= 1)
      longest[row]![column] = isSame(row, column)
        ? longest[row + 1]![column + 1]! + 1
        : Math.max(longest[row + 1]![column]!, longest[row]![column + 1]!);
  const both: (readonly [Item, Item])[] = [];
  const onlyBefore: Item[] = [];
  const onlyAfter: Item[] = [];
  let [row, column] = [0, 0];
  while (row < rows || column < columns) {
    if (row < rows && column < columns && isSame(row, column)) {
      both.push([before[row]!, after[column]!]);
      row += 1;
      column += 1;
    } else if (
      column >= columns ||
      (row < rows && longest[row + 1]![column]! >= longest[row]![column + 1]!)
    ) {
      onlyBefore.push(before[row]!);
      row += 1;
    } else {
      onlyAfter.push(after[column]!);
      column += 1;
    }
  }
  return { both, onlyBefore, onlyAfter };
};
