/** Numbers by ascending key; the same number may lie in it more than once, as a shortest-path search leaves stale ones. */
export class Heap {
  private readonly keys: number[] = [];
  private readonly items: number[] = [];

  get size(): number {
    return this.items.length;
  }

  /** The least key; infinite where the heap is empty. */
  get least(): number {
    return this.keys[0] ?? Infinity;
  }

  clear(): void {
    this.keys.length = 0;
    this.items.length = 0;
  }

  push(key: number, item: number): void {
    let i = this.items.length;
    this.keys.push(key);
    this.items.push(item);
    while (i > 0) {
      const above = (i - 1) >> 1;
      if ((this.keys[above] as number) <= key) break;
      this.put(i, this.keys[above] as number, this.items[above] as number);
      i = above;
    }
    this.put(i, key, item);
  }

  /** The item of the least key. Throws RangeError on an empty heap: the caller's bug. */
  pop(): number {
    const first = this.items[0];
    const key = this.keys.pop();
    const item = this.items.pop();
    if (first === undefined || key === undefined || item === undefined)
      throw new RangeError('Heap.pop: empty');
    if (this.items.length > 0) this.sink(key, item);
    return first;
  }

  private sink(key: number, item: number): void {
    const { keys, items } = this;
    let i = 0;
    for (let below = 1; below < items.length; below = 2 * i + 1) {
      if (below + 1 < items.length && (keys[below + 1] as number) < (keys[below] as number)) below++;
      if ((keys[below] as number) >= key) break;
      this.put(i, keys[below] as number, items[below] as number);
      i = below;
    }
    this.put(i, key, item);
  }

  private put(i: number, key: number, item: number): void {
    this.keys[i] = key;
    this.items[i] = item;
  }
}
