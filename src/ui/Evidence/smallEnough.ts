/** Best first. Below the last the blocks of the JPEG show; a smaller picture is then the better one. */
const QUALITIES = [0.85, 0.75, 0.65, 0.55] as const;

/** A try at writing a picture: its bytes count. */
interface Written {
  readonly size: number;
}

/**
 * The best writing of a picture that is small enough: rougher first, then smaller, until it fits, which it does at the
 * latest when it is a few pixels.
 *
 * @param write    writes the picture with that many px on its longer side at that quality of JPEG, 0 to 1
 * @param side     px on the longer side to begin with
 * @param mostBytes of the result
 * @throws what `write` throws
 */
export async function smallEnough<W extends Written>(
  write: (side: number, quality: number) => Promise<W>,
  side: number,
  mostBytes: number,
): Promise<W> {
  for (let within = side; ; within *= 0.8) {
    for (const quality of QUALITIES) {
      const written = await write(within, quality);
      if (written.size <= mostBytes || within <= 1) return written;
    }
  }
}
