/** Finds room for words beside points of a drawing, so that none stands across another. */
import type { Point } from './svg.ts';

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const meets = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Distances from the point at which room is looked for, of the first one. */
const RINGS = [1, 2, 3.2, 4.6, 6.2];
const SIDES = 16;
/** One ring farther is worth so many points of a line less. */
const FAR_COST = 3;

export class LabelRoom {
  private readonly taken: Box[] = [];

  /** @param lines points of lines that words should not stand across where there is other room */
  constructor(
    private readonly frame: Box,
    private readonly lines: readonly Point[] = [],
  ) {}

  /** Keeps a box free of words. */
  take(box: Box): void {
    this.taken.push(box);
  }

  /**
   * A free box of a size near a point and off the lines, taken from now on.
   *
   * @param off distance from the point
   * @returns null where there is none
   */
  place([x, y]: Point, width: number, height: number, off: number): Box | null {
    let best: { readonly box: Box; readonly cost: number } | undefined;
    for (const [far, ring] of RINGS.entries()) {
      if (best !== undefined && best.cost <= far * FAR_COST) break;
      for (let i = 0; i < SIDES; i += 1) {
        // East and west first: words beside a point are read as its own.
        const turn = ((i % 2 === 0 ? i / 2 : SIDES - (i + 1) / 2) * 2 * Math.PI) / SIDES;
        const [dx, dy] = [Math.cos(turn), Math.sin(turn)];
        const [cx, cy] = [x + dx * (off * ring + width / 2), y + dy * (off * ring + height / 2)];
        const box = {
          left: cx - width / 2,
          right: cx + width / 2,
          top: cy - height / 2,
          bottom: cy + height / 2,
        };
        const inFrame =
          box.left >= this.frame.left &&
          box.right <= this.frame.right &&
          box.top >= this.frame.top &&
          box.bottom <= this.frame.bottom;
        if (!inFrame || this.taken.some((other) => meets(box, other))) continue;
        const across = this.lines.filter(
          ([px, py]) => px > box.left && px < box.right && py > box.top && py < box.bottom,
        ).length;
        const cost = across + far * FAR_COST;
        if (best === undefined || cost < best.cost) best = { box, cost };
      }
    }
    if (best === undefined) return null;
    this.taken.push(best.box);
    return best.box;
  }
}
