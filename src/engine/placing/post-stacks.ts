/** Posts of one length in stock, counted in sets: one for every column of posts under a shelf. */
export interface PostSet {
  readonly length: number;
  readonly sets: number;
}

/** A stack of posts: lengths from the bottom up, longest first, and their sum [m]. */
export interface Stack {
  readonly lengths: readonly number[];
  readonly height: number;
  /** How many of each length in stock it takes, in the order of the stock. */
  readonly takes: readonly number[];
}

/** Every stack of at most `maxStack` posts in stock, lowest first, fewest posts first among equals. */
export function stacksOf(stock: readonly PostSet[], maxStack: number): readonly Stack[] {
  const stacks: Stack[] = [];
  const takes = stock.map(() => 0);
  const extend = (from: number, lengths: number[], height: number): void => {
    if (lengths.length > 0) stacks.push({ lengths: [...lengths].sort((a, b) => b - a), height, takes: [...takes] });
    if (lengths.length === maxStack) return;
    for (let i = from; i < stock.length; i++) {
      const post = stock[i];
      if (takes[i] >= post.sets) continue;
      takes[i] = takes[i] + 1;
      extend(i, [...lengths, post.length], height + post.length);
      takes[i] = takes[i] - 1;
    }
  };
  extend(0, [], 0);
  return stacks.sort((a, b) => a.height - b.height || a.lengths.length - b.lengths.length);
}

/** Chooses stacks for several layers at once out of one stock. */
export class PostFitter {
  readonly stacks: readonly Stack[];
  private readonly sets: readonly number[];
  private readonly memo = new Map<string, readonly Stack[] | null>();

  constructor(stock: readonly PostSet[], maxStack: number) {
    this.stacks = stacksOf(stock, maxStack);
    this.sets = stock.map((post) => post.sets);
  }

  /** Index of the lowest stack of at least `height` [m]; stacks.length if none. */
  lowest(height: number): number {
    let low = 0;
    let high = this.stacks.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.stacks[middle].height < height - 1e-9) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /**
   * One stack per required height, at least that high, all out of the stock and together no higher than `budget` [m];
   * null if a bounded search finds none. Layers keep their order; the sum of heights is low, not always the least.
   */
  fit(required: readonly number[], budget: number): readonly Stack[] | null {
    const key = required.map((height) => Math.round(height * 1e5)).join(",") + ";" + Math.round(budget * 1e5);
    const known = this.memo.get(key);
    if (known !== undefined) return known;
    const found = this.search(required, budget);
    if (this.memo.size > 20_000) this.memo.clear();
    this.memo.set(key, found);
    return found;
  }

  private search(required: readonly number[], budget: number): readonly Stack[] | null {
    // Tall layers have the fewest stacks, so they choose first.
    const order = required.map((_, layer) => layer).sort((a, b) => required[b] - required[a]);
    const least = order.map((layer) => this.stacks[this.lowest(required[layer])]?.height ?? Infinity);
    const rest = order.map(() => 0);
    for (let i = order.length - 1; i >= 0; i--) rest[i] = (rest[i + 1] ?? 0) + least[i];
    const left = [...this.sets];
    const chosen: (Stack | undefined)[] = required.map(() => undefined);
    let nodes = 0;
    const place = (at: number, used: number): boolean => {
      if (at === order.length) return true;
      const layer = order[at];
      for (let s = this.lowest(required[layer]); s < this.stacks.length; s++) {
        const stack = this.stacks[s];
        if (used + stack.height + (rest[at + 1] ?? 0) > budget + 1e-9) return false;
        if (++nodes > 400) return false;
        if (stack.takes.some((count, i) => count > left[i])) continue;
        stack.takes.forEach((count, i) => (left[i] = left[i] - count));
        chosen[layer] = stack;
        if (place(at + 1, used + stack.height)) return true;
        stack.takes.forEach((count, i) => (left[i] = left[i] + count));
      }
      return false;
    };
    return place(0, 0) ? (chosen as Stack[]) : null;
  }
}
