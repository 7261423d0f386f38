/** A text that wants to stand at a place along a line. */
export interface Label {
  readonly centre: number;
  readonly width: number;
  /** Greater stays where not all find room. */
  readonly rank: number;
  /** How far it may stand from its wish; left out: as far as all. */
  readonly reach?: number;
}

interface Cluster {
  readonly members: readonly number[];
  /** Where the cluster's left end would like to be: the mean of its members' wishes. */
  readonly wish: number;
  readonly width: number;
}

const merged = (one: Cluster, other: Cluster, gap: number): Cluster => {
  const ownWish = one.wish * one.members.length;
  const otherWish = (other.wish - one.width - gap) * other.members.length;
  const members = [...one.members, ...other.members];
  return { members, wish: (ownWish + otherWish) / members.length, width: one.width + gap + other.width };
};

/** Least-squares places in order without overlap, by pooling neighbours that collide. */
const placed = (
  labels: readonly Label[],
  order: readonly number[],
  gap: number,
): ReadonlyMap<number, number> => {
  const clusters: Cluster[] = [];
  for (const index of order) {
    const { centre, width } = labels[index]!;
    let cluster: Cluster = { members: [index], wish: centre - width / 2, width };
    for (
      let last = clusters.at(-1);
      last && last.wish + last.width + gap > cluster.wish;
      last = clusters.at(-1)
    ) {
      cluster = merged(last, cluster, gap);
      clusters.pop();
    }
    clusters.push(cluster);
  }
  const centres = new Map<number, number>();
  for (const { members, wish } of clusters) {
    let left = wish;
    for (const index of members) {
      const { width } = labels[index]!;
      centres.set(index, left + width / 2);
      left += width + gap;
    }
  }
  return centres;
};

/**
 * Places labels along a line so that none overlaps another, each as near to its wish as all allow, and none further
 * from it than its reach. Where that can't be, a label of least rank in the crowd is left out (undefined); of several,
 * the one whose neighbours stand closest about it, so that a crowd of equals thins out evenly.
 *
 * @returns the centre of each label, by its index.
 */
export const spreadLabels = (
  labels: readonly Label[],
  { gap, mostShift }: { readonly gap: number; readonly mostShift: number },
): readonly (number | undefined)[] => {
  let order = labels
    .map((_, index) => index)
    .sort((one, other) => labels[one]!.centre - labels[other]!.centre || one - other);
  for (;;) {
    const centres = placed(labels, order, gap);
    const strayed = order.find((index) => {
      const { centre, reach = mostShift } = labels[index]!;
      return Math.abs(centres.get(index)! - centre) > reach + 1e-9;
    });
    if (strayed === undefined) return labels.map((_, index) => centres.get(index));
    const crowd = crowdAround(labels, order, centres, strayed, gap);
    const weakest = weakestOf(labels, order, crowd);
    order = order.filter((index) => index !== weakest);
  }
};

const weakestOf = (labels: readonly Label[], order: readonly number[], crowd: readonly number[]): number => {
  const room = (index: number): number => {
    const at = order.indexOf(index);
    const before = labels[order[at - 1] ?? -1]?.centre ?? Number.NEGATIVE_INFINITY;
    const after = labels[order[at + 1] ?? -1]?.centre ?? Number.POSITIVE_INFINITY;
    return after - before - labels[index]!.width;
  };
  return crowd.reduce((worst, index) => {
    const byRank = labels[index]!.rank - labels[worst]!.rank;
    return byRank < 0 || (byRank === 0 && room(index) < room(worst) - 1e-9) ? index : worst;
  });
};

/** Those that stand shoulder to shoulder with a label that strayed too far from where it belongs. */
const crowdAround = (
  labels: readonly Label[],
  order: readonly number[],
  centres: ReadonlyMap<number, number>,
  member: number,
  gap: number,
): readonly number[] => {
  const touches = (one: number, other: number) =>
    centres.get(other)! - centres.get(one)! - (labels[one]!.width + labels[other]!.width) / 2 < gap + 1e-6;
  let first = order.indexOf(member);
  let last = first;
  while (first > 0 && touches(order[first - 1]!, order[first]!)) first -= 1;
  while (last < order.length - 1 && touches(order[last]!, order[last + 1]!)) last += 1;
  return order.slice(first, last + 1);
};
