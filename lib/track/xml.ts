import { failed, ok, type Result } from '../result/index.ts';

/** An element of an XML document; names without their namespace prefix. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** Own character data, trimmed. */
  readonly text: string;
}

interface OpenElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: XmlElement[];
  text: string;
}

const NAME = String.raw`[A-Za-z_][\w.-]*(?::[A-Za-z_][\w.-]*)?`;
const ATTRIBUTE = String.raw`\s+${NAME}\s*=\s*(?:"[^"<]*"|'[^'<]*')`;
const TOKEN = new RegExp(
  [
    String.raw`<!--[\s\S]*?-->`,
    String.raw`<\?[\s\S]*?\?>`,
    String.raw`<!\[CDATA\[([\s\S]*?)\]\]>`,
    String.raw`</(${NAME})\s*>`,
    String.raw`<(${NAME})((?:${ATTRIBUTE})*)\s*(/?)>`,
    String.raw`([^<]+)`,
  ].join('|'),
  'y',
);

/** Elements inside one another; GPX with its extensions has some ten. */
const MOST_DEPTH_COUNT = 100;

/**
 * Reads a small XML document into its root element.
 *
 * Elements, attributes, character data, CDATA, comments and the five named entities; no document type declaration, so
 * that no text can grow out of an entity; at most 100 elements inside one another; no character XML 1.0 forbids (2.2).
 *
 * @returns the root, or `xml.not-well-formed` with the line
 */
export function parseXml(text: string, where: string): Result<XmlElement> {
  const document: OpenElement = { name: '', attributes: new Map(), children: [], text: '' };
  const open: OpenElement[] = [document];
  TOKEN.lastIndex = 0;
  const source = text.replace(/^\uFEFF/, '');
  const strangeIndex = source.search(NOT_XML);
  if (strangeIndex >= 0)
    return notWellFormed(where, source.slice(0, strangeIndex), 'holds a character that XML forbids');
  while (TOKEN.lastIndex < source.length) {
    const startIndex = TOKEN.lastIndex;
    const token = TOKEN.exec(source);
    const broken = token === null ? 'cannot be read as XML' : takeToken(token, open);
    if (broken !== null) return notWellFormed(where, source.slice(0, startIndex), broken);
  }
  const root = document.children[0];
  if (open.length > 1) return notWellFormed(where, source, `ends inside <${open.at(-1)?.name}>`);
  if (root === undefined || document.children.length > 1 || document.text.trim() !== '') {
    return notWellFormed(where, '', 'has no single root element');
  }
  return ok(root);
}

/** Applies one token to the stack of open elements; returns what is wrong with it, or null. */
function takeToken(token: RegExpExecArray, open: OpenElement[]): string | null {
  const [, cdata, closing, opening, attributes = '', selfClosing, characters] = token;
  const current = open.at(-1);
  if (current === undefined) return 'closes more than it opened';
  if (cdata !== undefined) current.text += cdata;
  if (characters !== undefined) {
    const decoded = decodeEntities(characters);
    if (decoded === null) return 'holds an entity that XML does not define';
    current.text += decoded;
  }
  if (closing !== undefined) return closeElement(localName(closing), open);
  if (opening !== undefined) {
    const read = readAttributes(attributes);
    if (read === null) return `has a repeated or unreadable attribute in <${opening}>`;
    if (open.length > MOST_DEPTH_COUNT) return `has more than ${MOST_DEPTH_COUNT} elements inside one another`;
    open.push({ name: localName(opening), attributes: read, children: [], text: '' });
    if (selfClosing === '/') return closeElement(localName(opening), open);
  }
  return null;
}

function closeElement(name: string, open: OpenElement[]): string | null {
  const current = open.pop();
  const parent = open.at(-1);
  if (current === undefined || parent === undefined) return `closes </${name}> without an opening`;
  if (current.name !== name) return `closes </${name}> where <${current.name}> is open`;
  parent.children.push({ ...current, text: current.text.trim() });
  return null;
}

function readAttributes(text: string): ReadonlyMap<string, string> | null {
  const attributes = new Map<string, string>();
  for (const [, name = '', , double, single] of text.matchAll(
    new RegExp(String.raw`(${NAME})\s*=\s*("([^"]*)"|'([^']*)')`, 'g'),
  )) {
    const value = decodeEntities(double ?? single ?? '');
    // Names keep their prefix here: `xsi:version` is another attribute than `version`.
    if (value === null || attributes.has(name)) return null;
    attributes.set(name, value);
  }
  return attributes;
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['lt', '<'],
  ['gt', '>'],
  ['amp', '&'],
  ['quot', '"'],
  ['apos', "'"],
]);

/** Character data with its references resolved; null for one that XML does not define. */
function decodeEntities(text: string): string | null {
  let isKnown = true;
  const decoded = text.replaceAll(
    /&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w+));|&/gi,
    (_, hex?: string, decimal?: string, name?: string) => {
      const codePoint = hex !== undefined ? Number.parseInt(hex, 16) : Number(decimal);
      const known = name === undefined ? undefined : ENTITIES.get(name);
      if (known !== undefined) return known;
      if (name === undefined && isXmlCharacter(codePoint)) return String.fromCodePoint(codePoint);
      isKnown = false;
      return '';
    },
  );
  return isKnown ? decoded : null;
}

/** Characters outside the Char production of XML 1.0 (2.2): controls, lone surrogates, two non-characters. */
const NOT_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

const isXmlCharacter = (pointCode: number): boolean =>
  pointCode <= 0x10ffff && String.fromCodePoint(pointCode).search(NOT_XML) < 0;

/** Text made safe for XML content and attributes; characters that XML 1.0 forbids are dropped. */
export function escapeXml(text: string): string {
  return text
    .replaceAll(NOT_XML, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

function notWellFormed(where: string, before: string, what: string): Result<never> {
  return failed({
    code: 'xml.not-well-formed',
    where: `${where}, line ${before.split('\n').length}`,
    what: `The text ${what}.`,
    expected: 'a well-formed XML document without a document type declaration',
    remedy: 'Export the file again, or send it whole.',
  });
}
