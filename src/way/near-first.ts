/** A binary heap of facts by distance, on typed lists: nearest out first. */
export class NearFirst {
  private keys = new Float64Array(64);
  private facts = new Int32Array(64);
  /** Facts inside, count. */
  size = 0;

  /** Puts a fact in at a distance. */
  push(key: number, fact: number): void {
    if (this.size === this.keys.length) {
      const longer = new Float64Array(2 * this.size);
      const more = new Int32Array(2 * this.size);
      longer.set(this.keys);
      more.set(this.facts);
      this.keys = longer;
      this.facts = more;
    }
    const { keys, facts } = this;
    let at = this.size++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (keys[up]! <= key) break;
      keys[at] = keys[up]!;
      facts[at] = facts[up]!;
      at = up;
    }
    keys[at] = key;
    facts[at] = fact;
  }

  /** Takes out a nearest fact. */
  pop(): number {
    const { keys, facts } = this;
    const top = facts[0]!;
    const size = --this.size;
    const key = keys[size]!;
    const fact = facts[size]!;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= size) break;
      if (down + 1 < size && keys[down + 1]! < keys[down]!) down += 1;
      if (keys[down]! >= key) break;
      keys[at] = keys[down]!;
      facts[at] = facts[down]!;
      at = down;
    }
    keys[at] = key;
    facts[at] = fact;
    return top;
  }
}
