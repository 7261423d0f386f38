/** A linear expression: factors by variable, and a constant. */
export class Linear {
  readonly terms = new Map<string, number>();
  constant = 0;

  add(factor: number, name: string): this {
    this.terms.set(name, (this.terms.get(name) ?? 0) + factor);
    return this;
  }
  plus(value: number): this {
    this.constant += value;
    return this;
  }
  addAll(factor: number, other: Linear): this {
    for (const [name, value] of other.terms) this.add(factor * value, name);
    this.constant += factor * other.constant;
    return this;
  }
}
