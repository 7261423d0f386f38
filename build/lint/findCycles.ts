/**
 * The cycles of a directed graph, one per strongly connected component with more than one node (or an edge to itself),
 * each as a path that starts and ends with the same node. Components come from Tarjan's algorithm (SIAM J. Comput.
 * 1(2), 1972, 146-160); within one, the path is the shortest cycle through its first node.
 *
 * @example findCycles(new Map([['a', ['b']], ['b', ['a']]])) // [['a', 'b', 'a']]
 */
export const findCycles = (graph: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] =>
  stronglyConnected(graph)
    .map((component) => shortestCycle(graph, new Set(component), [...component].sort()[0]!))
    .filter((cycle) => cycle !== undefined)
    .sort((a, b) => a.join().localeCompare(b.join()));

const stronglyConnected = (graph: ReadonlyMap<string, readonly string[]>): readonly string[][] => {
  const components: string[][] = [];
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const stack: string[] = [];
  const onStack = new Set<string>();
  const visit = (node: string): void => {
    order.set(node, order.size);
    low.set(node, order.get(node)!);
    stack.push(node);
    onStack.add(node);
    for (const next of graph.get(node) ?? []) {
      if (!order.has(next)) {
        visit(next);
        low.set(node, Math.min(low.get(node)!, low.get(next)!));
      } else if (onStack.has(next)) {
        low.set(node, Math.min(low.get(node)!, order.get(next)!));
      }
    }
    if (low.get(node) !== order.get(node)) return;
    const component = stack.splice(stack.indexOf(node));
    for (const member of component) onStack.delete(member);
    components.push(component);
  };
  for (const node of graph.keys()) if (!order.has(node)) visit(node);
  return components;
};

const shortestCycle = (
  graph: ReadonlyMap<string, readonly string[]>,
  inside: ReadonlySet<string>,
  start: string,
): readonly string[] | undefined => {
  const paths: string[][] = [[start]];
  const seen = new Set<string>();
  for (let path = paths.shift(); path; path = paths.shift()) {
    for (const next of graph.get(path.at(-1)!) ?? []) {
      if (next === start) return [...path, start];
      if (!inside.has(next) || seen.has(next)) continue;
      seen.add(next);
      paths.push([...path, next]);
    }
  }
  return undefined;
};
