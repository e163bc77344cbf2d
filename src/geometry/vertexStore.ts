/**
 * Points that are numbered and found again by place. Scattered into buckets by a hash of their grid cell, so adding
 * and finding take constant time at any size of drawing.
 */
export class VertexStore {
  readonly xs: number[] = [];
  readonly ys: number[] = [];
  readonly #cell: number;
  #heads: Int32Array;
  readonly #next: number[] = [];

  /** @param reach the largest distance that will be asked for, mm */
  constructor(reach: number, expected = 256) {
    this.#cell = reach * 32;
    let size = 256;
    while (size < expected * 2) size *= 2;
    this.#heads = new Int32Array(size).fill(-1);
  }

  get count(): number {
    return this.xs.length;
  }

  /** Add a point, whatever lies near it. */
  add(x: number, y: number): number {
    const id = this.xs.length;
    this.xs.push(x);
    this.ys.push(y);
    this.#next.push(-1);
    if (id >= this.#heads.length) this.#grow();
    else this.#link(id);
    return id;
  }

  /** Number of the nearest point closer than reach, or -1. */
  find(x: number, y: number, reach: number): number {
    const [x0, y0] = [this.#column(x - reach), this.#column(y - reach)];
    // Reach is far less than a cell, so two columns and rows at most; counted, as far out adding 1 changes nothing.
    const [columns, rows] = [this.#column(x + reach) > x0 ? 2 : 1, this.#column(y + reach) > y0 ? 2 : 1];
    let best = -1;
    let nearest = reach * reach;
    for (let i = 0; i < columns; i += 1) {
      for (let j = 0; j < rows; j += 1) {
        for (let id = this.#heads[this.#bucket(x0 + i, y0 + j)]!; id >= 0; id = this.#next[id]!) {
          const d = (this.xs[id]! - x) ** 2 + (this.ys[id]! - y) ** 2;
          if (d < nearest || (d === nearest && id < best)) [best, nearest] = [id, d];
        }
      }
    }
    return best;
  }

  /** The point closer than reach, or a new one. */
  findOrAdd(x: number, y: number, reach: number): number {
    const id = this.find(x, y, reach);
    return id >= 0 ? id : this.add(x, y);
  }

  #column(v: number): number {
    return Math.floor(v / this.#cell);
  }

  #bucket(ix: number, iy: number): number {
    return (Math.imul(ix | 0, 73856093) ^ Math.imul(iy | 0, 19349663)) & (this.#heads.length - 1);
  }

  #link(id: number): void {
    const b = this.#bucket(this.#column(this.xs[id]!), this.#column(this.ys[id]!));
    this.#next[id] = this.#heads[b]!;
    this.#heads[b] = id;
  }

  #grow(): void {
    this.#heads = new Int32Array(this.#heads.length * 4).fill(-1);
    for (let id = 0; id < this.xs.length; id += 1) this.#link(id);
  }
}
