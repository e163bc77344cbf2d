import { CLOTH_ROUNDING } from '../../geometry';
import type { NoFit } from '../noFit/noFit';
import { pushCrossing } from '../search/crossings';
import type { LayForm } from '../search/layShape';
import type { FillSpace, LaidPiece, OwnCloth } from './fillSpace';

/** A region a piece may not lie in, and where its frame stands on the cloth. */
interface Barred {
  readonly region: NoFit;
  readonly x: number;
  readonly y: number;
}

/** Places where a piece may lie on a cloth: within the box, outside every barred region. */
class Room {
  private readonly space: FillSpace;
  private readonly barred: readonly Barred[];
  private readonly mostX: number;
  private readonly mostY: number;

  constructor(space: FillSpace, cloth: OwnCloth, laid: readonly LaidPiece[], turn: LayForm) {
    this.space = space;
    this.mostX = Math.max(0, cloth.length - turn.length);
    this.mostY = Math.max(0, cloth.width - turn.width);
    this.barred = [
      ...space.overEdge(cloth, turn).map((region) => ({ region, x: 0, y: 0 })),
      ...laid.map(({ piece, turn: other, x, y }) => ({
        region: space.between(space.turns[piece]![other]!, turn),
        x,
        y,
      })),
    ];
  }

  private isFree(x: number, y: number): boolean {
    this.space.meter.work += 2 * this.barred.length;
    return this.barred.every((b) => b.region.depth(x - b.x, y - b.y) === 0);
  }

  /** First free one of candidates x, y, x, y … by x, then y; only those with x below `limit`. */
  private firstFree(candidates: readonly number[], limit: number): [number, number] | null {
    const { mostX, mostY } = this;
    const order: number[] = [];
    for (let k = 0; k < candidates.length; k += 2) {
      const [x, y] = [candidates[k]!, candidates[k + 1]!];
      if (
        x < limit &&
        x >= -CLOTH_ROUNDING &&
        x <= mostX + CLOTH_ROUNDING &&
        y >= -CLOTH_ROUNDING &&
        y <= mostY + CLOTH_ROUNDING
      )
        order.push(k);
    }
    this.space.meter.work += 4 * candidates.length;
    order.sort((a, b) => candidates[a]! - candidates[b]! || candidates[a + 1]! - candidates[b + 1]!);
    for (const k of order) {
      const x = Math.min(mostX, Math.max(0, candidates[k]!));
      const y = Math.min(mostY, Math.max(0, candidates[k + 1]!));
      if (this.isFree(x, y)) return [x, y];
    }
    return null;
  }

  /** Boundaries of the regions as x0, y0, x1, y1, on the cloth. */
  private boundaries(): Float64Array[] {
    return this.barred.map(({ region, x, y }) => region.edges.map((v, i) => v + (i % 2 === 0 ? x : y)));
  }

  /** Corners of the box and of the regions, and where their boundaries cross the box's. */
  private plain(edges: readonly Float64Array[]): number[] {
    const { mostX, mostY } = this;
    const out = [0, 0, 0, mostY, mostX, 0, mostX, mostY];
    for (const e of edges) {
      for (let k = 0; k < e.length; k += 4) {
        const [x0, y0, x1, y1] = [e[k]!, e[k + 1]!, e[k + 2]!, e[k + 3]!];
        out.push(x0, y0, x1, y1);
        for (const x of [0, mostX])
          if (x0 < x !== x1 < x) out.push(x, y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
        for (const y of [0, mostY])
          if (y0 < y !== y1 < y) out.push(x0 + ((x1 - x0) * (y - y0)) / (y1 - y0), y);
      }
    }
    return out;
  }

  /** Where boundaries of two regions cross, left of `limit`. */
  private crossings(edges: readonly Float64Array[], limit: number): number[] {
    const rows = edges.flatMap((e, set) =>
      Array.from({ length: e.length / 4 }, (_, i) => ({ e, set, at: 4 * i, minX: 0, maxX: 0 })),
    );
    for (const r of rows) {
      r.minX = Math.min(r.e[r.at]!, r.e[r.at + 2]!);
      r.maxX = Math.max(r.e[r.at]!, r.e[r.at + 2]!);
    }
    const near = rows.filter((r) => r.minX < limit && r.maxX >= 0).sort((a, b) => a.minX - b.minX);
    const out: number[] = [];
    near.forEach((a, i) => {
      for (let j = i + 1; j < near.length && near[j]!.minX <= a.maxX; j += 1)
        if (near[j]!.set !== a.set) pushCrossing(out, a.e, a.at, near[j]!.e, near[j]!.at, Infinity);
      this.space.meter.work += 1;
    });
    this.space.meter.work += 10 * near.length;
    return out;
  }

  /** The leftmost free place with x below `limit`: it is always a corner or a crossing of boundaries. */
  leftmost(limit: number): [number, number] | null {
    const edges = this.boundaries();
    const plain = this.firstFree(this.plain(edges), limit);
    const least = plain ? plain[0] : limit;
    return this.firstFree(this.crossings(edges, least), least) ?? plain;
  }
}

/** Where a piece fits beside those that lie on the cloth, ending farthest left; null where it does not. */
export function freeSpot(
  space: FillSpace,
  cloth: OwnCloth,
  laid: readonly LaidPiece[],
  piece: number,
): LaidPiece | null {
  let best: LaidPiece | null = null;
  let end = Infinity;
  space.turns[piece]!.forEach((turn, i) => {
    if (!space.fitsBox(cloth, turn)) return;
    const { length } = turn;
    const limit = Math.min(end - length - CLOTH_ROUNDING, cloth.length - length + 2 * CLOTH_ROUNDING);
    const spot = limit > -CLOTH_ROUNDING ? new Room(space, cloth, laid, turn).leftmost(limit) : null;
    if (!spot) return;
    best = { piece, turn: i, x: spot[0], y: spot[1] };
    end = spot[0] + length;
  });
  return best;
}
