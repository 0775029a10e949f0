import { XMLParser, XMLValidator } from "fast-xml-parser";

/** An element of an XML file, its name and its attributes' without their namespace's prefix. */
export interface Element {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly Element[];
  /** what stands in it itself, without blanks around it */
  readonly text: string;
}

const LARGEST_MB = 20;
const DEEPEST = 40;

const again = "Nothing was read from it. Write the file again from where it came from.";

/** An element as the parser hands it on: one key with its children, and its attributes. */
type Parsed = Readonly<Record<string, unknown>>;

/** Entities are left as they stand: the five that XML itself has, and numbers, are put in by `decoded`. */
const parser = new XMLParser({
  preserveOrder: true,
  ignoreAttributes: false,
  attributeNamePrefix: "",
  parseTagValue: false,
  parseAttributeValue: false,
  processEntities: false,
  ignoreDeclaration: true,
  ignorePiTags: true,
  maxNestedTags: DEEPEST,
});

/**
 * The root of an XML file from elsewhere, or why it is not read, in words with what to do.
 *
 * A file with a document type is refused whole: entities of its own are how a small file grows to fill the memory,
 * or draws in another one, and no data needs them.
 */
export function readXml(bytes: Uint8Array): Element | string {
  if (bytes.length > LARGEST_MB * 1024 * 1024) {
    return `The file has more than ${LARGEST_MB} MB. Nothing was read from it. Take a file with one well's survey only.`;
  }
  const text = decodedBytes(bytes);
  if (text === undefined) return `The file's letters cannot be read. ${again}`;
  if (/<!(DOCTYPE|ENTITY)/i.test(text)) {
    return `The file defines a document type or entities of its own, which no survey needs. ${again}`;
  }
  const valid = XMLValidator.validate(text);
  if (valid !== true) {
    const { line, msg } = valid.err;
    return `The file is not whole XML: ${line === undefined ? "" : `line ${line}: `}${msg} ${again}`;
  }
  try {
    const roots = (parser.parse(text) as Parsed[]).filter((each) => !("#text" in each));
    const [root] = roots;
    return root && roots.length === 1 ? elementOf(root) : `The file is not whole XML. ${again}`;
  } catch (error) {
    const why = /nested/i.test(String(error))
      ? `The file has elements more than ${DEEPEST} deep.`
      : "The file has an element or attribute with a name that is not taken here.";
    return `${why} ${again}`;
  }
}

/** By its byte order mark, then by what it says itself, then as UTF-8. */
function decodedBytes(bytes: Uint8Array): string | undefined {
  const [first, second] = bytes;
  const declared = /^<\?xml[^>]*\bencoding\s*=\s*["']([\w.:-]+)["']/i.exec(
    String.fromCharCode(...bytes.subarray(0, 200)),
  )?.[1];
  const encoding =
    first === 0xff && second === 0xfe
      ? "utf-16le"
      : first === 0xfe && second === 0xff
        ? "utf-16be"
        : (declared ?? "utf-8");
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function elementOf(parsed: Parsed): Element {
  const name = Object.keys(parsed).find((key) => key !== ":@") ?? "";
  const inside = parsed[name] as readonly Parsed[];
  const attributes = Object.entries((parsed[":@"] ?? {}) as Record<string, string>);
  return {
    name: local(name),
    attributes: new Map(attributes.map(([key, value]) => [local(key), decoded(value)])),
    children: inside.filter((each) => !("#text" in each)).map(elementOf),
    text: inside
      .flatMap((each) => ("#text" in each ? [decoded(String(each["#text"]))] : []))
      .join("")
      .trim(),
  };
}

const local = (name: string) => name.slice(name.indexOf(":") + 1);

const predefined: Readonly<Record<string, string>> = {
  amp: "&",
  lt: "<",
  gt: ">",
  quot: '"',
  apos: "'",
};

function decoded(text: string): string {
  return text.replace(
    /&(?:#x([\da-f]{1,6})|#(\d{1,7})|(amp|lt|gt|quot|apos));/gi,
    (whole, hex, decimal, name) => {
      if (name) return predefined[name.toLowerCase()] ?? whole;
      const code = hex ? Number.parseInt(hex, 16) : Number(decimal);
      return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
    },
  );
}

/** The first child of a name. */
export const child = (of: Element, name: string): Element | undefined =>
  of.children.find((each) => each.name === name);

/** What stands in the first child of a name, or further down; undefined when nothing does. */
export function textAt(of: Element, ...names: string[]): string | undefined {
  const at = names.reduce<Element | undefined>((from, name) => from && child(from, name), of);
  return at?.text || undefined;
}
