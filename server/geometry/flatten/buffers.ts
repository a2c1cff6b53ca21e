/**
 * Memory that one piece of work after the other lays its arrays in: a form whose measures are typed is laid flat at every key, with
 * megabytes for each. What stands in an array that is handed out is left from before.
 */
export class Buffers {
  private all = new ArrayBuffer(0);
  private at = 0;

  /** All that was handed out before may be overwritten from here on. */
  begin(): void {
    this.at = 0;
  }

  floats(length: number): Float64Array {
    const from = this.take(8 * length);
    return new Float64Array(this.all, from, length);
  }

  /** Whole numbers from nought. */
  whole(length: number): Uint32Array {
    const from = this.take(4 * length);
    return new Uint32Array(this.all, from, length);
  }

  private take(bytes: number): number {
    // Arrays that were handed out already keep the memory that was too small.
    if (this.at + bytes > this.all.byteLength) {
      this.all = new ArrayBuffer(Math.min(Math.max(2 * (this.at + bytes), LEAST), this.at + bytes + MOST_SPARE));
      this.at = 0;
    }
    const from = this.at;
    this.at += Math.ceil(bytes / 8) * 8;
    return from;
  }
}

/** Bytes: enough for the mesh of one piece, and what a larger one leaves unused at most. */
const LEAST = 2 ** 20;
const MOST_SPARE = 2 ** 23;
