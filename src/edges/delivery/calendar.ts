/**
 * The farm's calendar as a feed that calendars subscribe to (iCalendar, RFC 5545 with RFC 7986). The same entries give
 * the same bytes: nothing in it depends on when it is asked for. All times are UTC, so no time zone need be described.
 */
import { createHash } from 'node:crypto'
import type { CalendarEntry } from '#app/calendar.ts'
import type { Manner } from '#core/messages/words/format.ts'
import { calendarWordsOf } from '#core/messages/words/words.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { instantOf, localDateOf } from '#core/units/time.ts'

const REFRESH = 'PT1H'

export function renderCalendar(farm: Farm, person: Person, entries: readonly CalendarEntry[]): string {
  const name = escapeText(calendarWordsOf(person.language).calendarName(farm.name))
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Threshday//Calendar//EN',
    'CALSCALE:GREGORIAN',
    `NAME:${name}`,
    `X-WR-CALNAME:${name}`,
    `REFRESH-INTERVAL;VALUE=DURATION:${REFRESH}`,
    `X-PUBLISHED-TTL:${REFRESH}`,
    ...entries.flatMap((entry) => eventLines(entry, farm, person)),
    'END:VCALENDAR',
  ]
  return `${lines.map(fold).join('\r\n')}\r\n`
}

function eventLines(entry: CalendarEntry, farm: Farm, person: Person): string[] {
  const { units, timeZone } = farm
  const nowEpochH = entry.changedEpochH
  const manner: Manner = {
    units,
    timeZone,
    language: person.language,
    today: localDateOf(nowEpochH, timeZone),
    nowEpochH,
  }
  const { summary, description } = calendarWordsOf(person.language).entry(entry.said, manner)
  const changed = utc(entry.changedEpochH)
  return [
    'BEGIN:VEVENT',
    `UID:${uidOf(entry.key)}`,
    `DTSTAMP:${changed}`,
    `LAST-MODIFIED:${changed}`,
    `SEQUENCE:${entry.sequence}`,
    `DTSTART:${utc(entry.startEpochH)}`,
    `DTEND:${utc(entry.endEpochH)}`,
    `SUMMARY:${escapeText(summary)}`,
    `DESCRIPTION:${escapeText(description)}`,
    `STATUS:${entry.status.toUpperCase()}`,
    // It tells of the field and takes nobody's time.
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ]
}

const UID_LENGTH = 32

/** RFC 7986, 5.3: says nothing of farm or field to who sees it. */
export const uidOf = (key: string): string => createHash('sha256').update(key).digest('hex').slice(0, UID_LENGTH)

/** RFC 5545, 3.3.5, form 2. */
const utc = (epochHours: number): string =>
  instantOf(epochHours).toString({ smallestUnit: 'second' }).replaceAll(/[-:]/g, '')

/** RFC 5545, 3.3.11; characters that no text may have are left out. */
const escapeText = (text: string): string =>
  text
    .replaceAll('\\', '\\\\')
    .replaceAll(';', '\\;')
    .replaceAll(',', '\\,')
    .replaceAll(/\r\n|\r|\n/g, '\\n')
    .replaceAll(/[^\P{Cc}\t]/gu, '')

const LINE_OCTETS = 75

/** RFC 5545, 3.1: a line has 75 octets at most, the next begins with a space; no character is cut in two. */
function fold(line: string): string {
  const parts: string[] = []
  let part = ''
  let octets = 0
  for (const character of line) {
    const length = Buffer.byteLength(character)
    if (octets + length > LINE_OCTETS) {
      parts.push(part)
      part = ' '
      octets = 1
    }
    part += character
    octets += length
  }
  parts.push(part)
  return parts.join('\r\n')
}
