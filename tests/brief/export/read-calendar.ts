/** iCalendar read by the letter of RFC 5545, to check ours: it throws at the first rule that is not kept. */

export interface ReadProperty {
  readonly name: string;
  readonly parameters: readonly string[];
  readonly value: string;
}

export interface ReadComponent {
  readonly name: string;
  readonly properties: readonly ReadProperty[];
  readonly components: readonly ReadComponent[];
}

interface OpenComponent {
  readonly name: string;
  readonly properties: ReadProperty[];
  readonly components: ReadComponent[];
}

function must(isKept: boolean, rule: string, text: string): asserts isKept {
  if (!isKept) throw new Error(`RFC 5545, ${rule}: ${JSON.stringify(text)}`);
}

/** The one calendar of a text, all rules checked. */
export function readCalendar(text: string): ReadComponent {
  const root: OpenComponent = { name: '', properties: [], components: [] };
  const open = [root];
  for (const line of unfoldedLines(text)) takeLine(readLine(line), open);
  must(open.length === 1, '3.6: every BEGIN has its END', text.slice(-40));
  const [calendar] = root.components;
  must(calendar?.name === 'VCALENDAR' && root.components.length === 1, '3.4: one VCALENDAR', text.slice(0, 40));
  checkCalendar(calendar);
  return calendar;
}

/** 3.1: CRLF after each line, 75 octets at most, a space or tab begins what is folded. */
function unfoldedLines(text: string): string[] {
  must(text.endsWith('\r\n'), '3.1: the last line ends with CRLF', text.slice(-20));
  const physical = text.slice(0, -2).split('\r\n');
  for (const line of physical) {
    must(!/[\r\n]/.test(line), '3.1: no CR or LF but in CRLF', line);
    must(Buffer.byteLength(line, 'utf8') <= 75, '3.1: 75 octets', line);
    must(Buffer.from(line, 'utf8').toString('utf8') === line, '3.1: no character is cut by folding', line);
  }
  return physical
    .join('\r\n')
    .replaceAll(/\r\n[ \t]/g, '')
    .split('\r\n');
}

/** 3.1, contentline: name, parameters, colon, value without controls. */
function readLine(line: string): ReadProperty {
  const parts = /^(?<name>[A-Za-z0-9-]+)(?<parameters>(?:;[A-Za-z0-9-]+=(?:"[^"]*"|[^";:,]*))*):(?<value>.*)$/su.exec(
    line,
  );
  must(parts?.groups !== undefined, '3.1: contentline', line);
  const { name = '', parameters = '', value = '' } = parts.groups;
  must(!Array.from(value).some(isControl), '3.1: VALUE-CHAR has no CONTROL', line);
  return { name, parameters: parameters.split(';').slice(1), value };
}

/** CONTROL = %x00-08 / %x0A-1F / %x7F. */
function isControl(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return (code < 0x20 && code !== 0x09) || code === 0x7f;
}

function takeLine(property: ReadProperty, open: OpenComponent[]): void {
  const current = open.at(-1);
  if (property.name === 'BEGIN') {
    open.push({ name: property.value, properties: [], components: [] });
  } else if (property.name === 'END') {
    must(current?.name === property.value, '3.6: END of what is open', property.value);
    open.pop();
    open.at(-1)?.components.push(current);
  } else {
    must(current !== undefined && current.name !== '', '3.4: properties stand in a component', property.name);
    must(current.components.length === 0, '3.6: properties stand before components', property.name);
    current.properties.push(property);
  }
}

const valuesOf = ({ properties }: ReadComponent, name: string): string[] =>
  properties.filter((property) => property.name === name).map(({ value }) => value);

/** The one value of a property, or undefined. */
export const valueOf = (component: ReadComponent, name: string): string | undefined => valuesOf(component, name)[0];

/** Text with its escapes resolved (3.3.11). */
export const textOf = (component: ReadComponent, name: string): string =>
  (valueOf(component, name) ?? '').replaceAll(/\\(.)/gsu, (_, character: string) =>
    /n/i.test(character) ? '\n' : character,
  );

const TEXT_PROPERTIES = ['UID', 'SUMMARY', 'DESCRIPTION', 'PRODID', 'NAME'];

function checkCounts(component: ReadComponent, once: readonly string[], atMostOnce: readonly string[]): void {
  for (const name of once)
    must(valuesOf(component, name).length === 1, `3.6: ${name} stands once in ${component.name}`, name);
  for (const name of atMostOnce)
    must(valuesOf(component, name).length <= 1, `3.6: ${name} at most once in ${component.name}`, name);
  const known = [...once, ...atMostOnce];
  for (const { name } of component.properties) must(known.includes(name), `3.6: a property of ${component.name}`, name);
  for (const name of TEXT_PROPERTIES)
    for (const value of valuesOf(component, name))
      must(/^(?:[^\\;,]|\\[\\;,nN])*$/su.test(value), '3.3.11: TEXT is escaped', value);
}

/** 3.6 for the calendar; NAME by RFC 7986, 5.1. */
function checkCalendar(calendar: ReadComponent): void {
  checkCounts(calendar, ['PRODID', 'VERSION'], ['CALSCALE', 'NAME']);
  must(valueOf(calendar, 'VERSION') === '2.0', '3.7.4: VERSION', 'VERSION');
  must(calendar.components.length > 0, '3.4: at least one component', 'VCALENDAR');
  for (const event of calendar.components) checkEvent(event);
  const uids = calendar.components.map((event) => valueOf(event, 'UID'));
  must(new Set(uids).size === uids.length, '3.8.4.7: UID is unique', uids.join(' '));
}

const UTC = /^\d{4}(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3])[0-5]\d(?:[0-5]\d|60)Z$/;

/** 3.6.1, without METHOD: UID, DTSTAMP and DTSTART once. */
function checkEvent(event: ReadComponent): void {
  must(event.name === 'VEVENT', '3.6.1: VEVENT', event.name);
  const optional = ['DTEND', 'SEQUENCE', 'SUMMARY', 'DESCRIPTION', 'GEO', 'STATUS', 'TRANSP'];
  checkCounts(event, ['UID', 'DTSTAMP', 'DTSTART'], optional);
  const [start = '', end, geo, status, transp] = ['DTSTART', 'DTEND', 'GEO', 'STATUS', 'TRANSP'].map((name) =>
    valueOf(event, name),
  );
  for (const instant of [valueOf(event, 'DTSTAMP') ?? '', start, end ?? start])
    must(UTC.test(instant), '3.3.5: DATE-TIME in UTC', instant);
  must(end === undefined || end > start, '3.8.2.2: DTEND is later than DTSTART', `${start} ${end}`);
  must(/^\d+$/.test(valueOf(event, 'SEQUENCE') ?? '0'), '3.8.7.4: SEQUENCE', 'SEQUENCE');
  must(
    status === undefined || ['TENTATIVE', 'CONFIRMED', 'CANCELLED'].includes(status),
    '3.8.1.11: STATUS',
    `${status}`,
  );
  must(transp === undefined || ['OPAQUE', 'TRANSPARENT'].includes(transp), '3.8.2.7: TRANSP', `${transp}`);
  if (geo !== undefined) checkGeo(geo);
  for (const alarm of event.components) checkAlarm(alarm, end !== undefined);
}

/** 3.8.1.6: two floats, latitude first. */
function checkGeo(geo: string): void {
  must(/^[+-]?\d+(?:\.\d+)?;[+-]?\d+(?:\.\d+)?$/.test(geo), '3.8.1.6: GEO', geo);
  const [lat = 91, lon = 181] = geo.split(';').map(Number);
  must(Math.abs(lat) <= 90 && Math.abs(lon) <= 180, '3.8.1.6: GEO in range', geo);
}

/** 3.6.6, dispprop: ACTION, TRIGGER and DESCRIPTION once. */
function checkAlarm(alarm: ReadComponent, hasEnd: boolean): void {
  must(alarm.name === 'VALARM' && alarm.components.length === 0, '3.6.6: VALARM', alarm.name);
  checkCounts(alarm, ['ACTION', 'TRIGGER', 'DESCRIPTION'], []);
  must(valueOf(alarm, 'ACTION') === 'DISPLAY', '3.6.6: ACTION', 'ACTION');
  const trigger = alarm.properties.find(({ name }) => name === 'TRIGGER');
  const seconds = /^[+-]?P(?:T(?:\d+H(?:\d+M(?:\d+S)?)?|\d+M(?:\d+S)?|\d+S)|\d+D|\d+W)$/;
  must(trigger !== undefined && seconds.test(trigger.value), '3.3.6: DURATION', trigger?.value ?? '');
  must(hasEnd || !trigger.parameters.includes('RELATED=END'), '3.8.6.3: RELATED=END wants an end', trigger.value);
}
