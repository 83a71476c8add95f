/** Numbers by ascending key; the same number may lie in it more than once, as a shortest-path search leaves stale ones. */
export class Heap {
  private readonly keys: number[] = [];
  private readonly items: number[] = [];
  private count = 0;

  get size(): number {
    return this.count;
  }

  /** The least key; infinite where the heap is empty. */
  get least(): number {
    return this.count > 0 ? (this.keys[0] as number) : Infinity;
  }

  /** Empties the heap but keeps its room. */
  clear(): void {
    this.count = 0;
  }

  push(key: number, item: number): void {
    const { keys, items } = this;
    let i = this.count++;
    while (i > 0) {
      const above = (i - 1) >> 1;
      if ((keys[above] as number) <= key) break;
      keys[i] = keys[above] as number;
      items[i] = items[above] as number;
      i = above;
    }
    keys[i] = key;
    items[i] = item;
  }

  /** The item of the least key. Throws RangeError on an empty heap: the caller's bug. */
  pop(): number {
    if (this.count === 0) throw new RangeError('Heap.pop: empty');
    const { keys, items } = this;
    const first = items[0] as number;
    const size = --this.count;
    const key = keys[size] as number;
    let i = 0;
    for (let below = 1; below < size; below = 2 * i + 1) {
      if (below + 1 < size && (keys[below + 1] as number) < (keys[below] as number)) below++;
      if ((keys[below] as number) >= key) break;
      keys[i] = keys[below] as number;
      items[i] = items[below] as number;
      i = below;
    }
    keys[i] = key;
    items[i] = items[size] as number;
    return first;
  }
}
