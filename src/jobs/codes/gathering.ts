import { type Frame, readFrame, shortName, transferOf } from "./frame.ts";
import { joined } from "./joined.ts";
import { unsqueeze } from "./squeezed.ts";

/** What came of one code that was read. */
export type Added =
  | { readonly is: "new" | "known" | "foreign" | "damaged" | "newer" }
  /** `name` of the other one, as its screen shows it */
  | { readonly is: "other transfer"; readonly name: string }
  /** all were there and did not fit together; they are forgotten */
  | { readonly is: "spoilt"; readonly why: string };

/** The codes of one transfer as they are read: in any order, some twice, some damaged, some of others in between. */
export class Gathering {
  private first: Frame | undefined;
  private readonly pieces = new Map<number, Uint8Array>();
  private whole: string | undefined;

  /** The first of ours that is read says which transfer this is. */
  add(code: string): Added {
    const read = readFrame(code);
    if (read.is !== "frame") return read;
    const { frame } = read;
    const { transfer, count } = this.first ?? frame;
    // The same job cut finer or coarser is another transfer, too: its pieces do not fit.
    if (frame.transfer !== transfer || frame.count !== count) {
      return { is: "other transfer", name: shortName(frame.transfer) };
    }
    if (this.pieces.has(frame.index)) return { is: "known" };
    this.first ??= frame;
    this.pieces.set(frame.index, frame.piece);
    return this.pieces.size === count ? this.join(transfer, count) : { is: "new" };
  }

  /** as the other screen shows it; undefined until a code was read */
  get name(): string | undefined {
    return this.first && shortName(this.first.transfer);
  }

  /** how many codes there are in all; undefined until one was read */
  get count(): number | undefined {
    return this.first?.count;
  }

  /** how many of them are here */
  get have(): number {
    return this.pieces.size;
  }

  /** the numbers of those that are not here, from 1 as they stand under the codes */
  get missing(): number[] {
    const numbers = Array.from({ length: this.count ?? 0 }, (_, index) => index + 1);
    return numbers.filter((number) => !this.pieces.has(number - 1));
  }

  /** the pack's text, when it is whole and its checksum holds */
  get text(): string | undefined {
    return this.whole;
  }

  private join(transfer: string, count: number): Added {
    const pieces = Array.from(
      { length: count },
      (_, index) => this.pieces.get(index) ?? new Uint8Array(),
    );
    const squeezed = joined(pieces);
    if (transferOf(squeezed) !== transfer) {
      return this.forget("their checksum does not hold");
    }
    try {
      this.whole = unsqueeze(squeezed);
      return { is: "new" };
    } catch (error) {
      return this.forget((error as Error).message);
    }
  }

  private forget(why: string): Added {
    this.first = undefined;
    this.pieces.clear();
    return {
      is: "spoilt",
      why: `All codes were read and do not make a pack: ${why}. They are read anew; if it comes to this again, carry the pack over as a file.`,
    };
  }
}
