import type { ClothPiece, LayJob } from '../../fabric';

/** Coordinates are told apart to this, mm: far below what shears can do, far above rounding. */
const TELLS_APART = 1e-5;

/** Two sums of 32 bits with different primes: together they tell jobs apart as good as surely. */
class Sum {
  private a = 0x811c9dc5;
  private b = 0x9e3779b9;

  number(value: number): void {
    const whole = Math.round(value / TELLS_APART);
    // beyond 32 bits (42 m) both halves count
    this.mix(whole | 0);
    this.mix((whole / 0x100000000) | 0);
  }

  text(value: string): void {
    for (let i = 0; i < value.length; i += 1) this.mix(value.charCodeAt(i));
    this.mix(-1);
  }

  private mix(value: number): void {
    this.a = Math.imul(this.a ^ value, 0x01000193);
    this.a ^= this.a >>> 15;
    this.b = Math.imul(this.b ^ value, 0x85ebca6b);
    this.b ^= this.b >>> 13;
  }

  toString(): string {
    return `${(this.a >>> 0).toString(36)}-${(this.b >>> 0).toString(36)}`;
  }
}

function addPiece(sum: Sum, { panel, cutting, ...rest }: ClothPiece): void {
  void panel; // a panel may be called otherwise after its line has moved
  sum.text(JSON.stringify(rest));
  for (const [x, y] of cutting) {
    sum.number(x);
    sum.number(y);
  }
}

/**
 * A name for what a job lays and how, its budget and the names of its panels left out: the same name, the same plan.
 * @returns unlike for jobs that differ by more than rounding, but for chances of about 1 in 2⁶⁰
 */
export function jobKey({ pieces, seconds, ...rest }: LayJob): string {
  void seconds;
  const sum = new Sum();
  sum.text(JSON.stringify(rest));
  for (const piece of pieces) addPiece(sum, piece);
  return `${rest.colour} ${pieces.length} ${sum.toString()}`;
}
