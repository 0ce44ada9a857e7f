/** The week: each field's working days side by side as one ribbon, so that a fit day stands out from the rest. */
import { html, raw } from 'hono/html'
import type { Farm } from '#core/farm/farm.ts'
import { drawWeekDays } from '#core/messages/draw-axis.ts'
import { drawRibbon, RIBBON_HATCH } from '#core/messages/draw-ribbon.ts'
import { partName } from '#core/messages/names.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import { type Ribbon, ribbonOf } from '#core/messages/ribbon.ts'
import { area, clock, dayName, longDate, type Manner, moisture } from '#core/messages/words/format.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { epochHoursOf, hoursOfLocalDay } from '#core/units/time.ts'
import type { Day } from '#work/make-day.ts'
import type { DayMade } from '#work/morning.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { ribbonKey } from './ribbon-key.ts'
import { inOrder } from './today-page.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

const DAYS = 7
/** Where no outfit is named [h]. */
const USUAL_HOURS = { from: 7, to: 21 }

interface WorkDay {
  readonly date: Temporal.PlainDate
  /** Whole hours since the epoch. */
  readonly fromEpochH: number
  readonly toEpochH: number
}

export function weekPage(farm: Farm, { message, day }: DayMade, viewer: Viewer): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    title: `${words.pages.week} · ${farm.name}`,
    farmName: farm.name,
    date: longDate(message.date, manner),
    language: message.language,
    current: 'week',
    viewer,
    words,
    body: day
      ? theWeek(farm, day, manner, words)
      : html`<h1>${words.failures['no-weather'].title}</h1><p>${words.failures['no-weather'].text}</p>`,
  })
}

function theWeek(farm: Farm, day: Day, manner: Manner, words: Words): Markup {
  const days = workDays(farm, day)
  const rows = inOrder(day).map(({ outlook }) => outlook)
  const fitSoon = rows.filter((outlook) => windowsIn(outlook, days).length > 0).length
  return html`<h1>${words.week.sentence(fitSoon, rows.length, days.length)}</h1>
${raw(RIBBON_HATCH)}
<section class="week" aria-label="${words.pages.week}">
${raw(drawWeekDays(days.map(({ date }) => `${shortDay(date, manner)} ${date.day}`)))}
<ol class="ribbons">
${rows.map((outlook, index) => weekRow(outlook, index, days, manner, words))}
</ol>
${ribbonKey(words)}
<p class="quiet">${words.week.help}</p>
</section>`
}

const shortDay = (date: Temporal.PlainDate, manner: Manner): string =>
  date.toLocaleString(manner.language === 'es' ? 'es-US' : 'en-US', { weekday: 'short' })

/** The hours of each day in which an outfit works, days off included: their ribbons say why they are held back. */
function workDays(farm: Farm, day: Day): WorkDay[] {
  const starts = farm.outfits.map(({ crewHours }) => Math.floor(crewHours.startMinute / 60))
  const ends = farm.outfits.map(({ crewHours }) => Math.ceil(crewHours.endMinute / 60))
  const from = starts.length > 0 ? Math.min(...starts) : USUAL_HOURS.from
  const to = ends.length > 0 ? Math.max(...ends) : USUAL_HOURS.to
  return Array.from({ length: DAYS }, (_, n) => {
    const date = day.date.add({ days: n })
    const { endEpochH } = hoursOfLocalDay(date, farm.timeZone)
    const start = date.toZonedDateTime({ timeZone: farm.timeZone, plainTime: new Temporal.PlainTime(from) })
    const fromEpochH = Math.ceil(epochHoursOf(start.toInstant()))
    return { date, fromEpochH, toEpochH: Math.min(endEpochH, fromEpochH + to - from) }
  })
}

function weekRow(outlook: Outlook, index: number, days: readonly WorkDay[], manner: Manner, words: Words): Markup {
  const { part } = outlook
  const name = partName(part)
  const windows = windowsIn(outlook, days)
  const said = windows.map(({ startEpochH, endEpochH, chance }) =>
    words.week.window(
      dayName(startEpochH, manner),
      clock(startEpochH, manner),
      clock(endEpochH, manner),
      words.chance(chance),
    ),
  )
  const drawing = drawRibbon(joined(outlook, days), {
    id: `week-${index}`,
    label: words.ribbonLabel(name, said.length > 0 ? said : [words.noWindow]),
    wordOf: (heldBy) => words.held[heldBy],
    moisture: (wb) => moisture(wb, manner),
    parts: days.length,
  })
  return html`<li><p class="name"><strong><a href="/fields/${encodeURIComponent(part.field.id)}">${name}</a></strong><span>${words.crop(part.field.crop)} · ${area(part.areaHa, manner)} · ${said[0] ?? words.noWindow}</span></p>${raw(drawing)}</li>
`
}

const windowsIn = (outlook: Outlook, days: readonly WorkDay[]) =>
  outlook.windows.filter(({ startEpochH }) => startEpochH < (days.at(-1)?.toEpochH ?? 0))

/** The working hours of the days, one after the other, the nights left out. */
function joined(outlook: Outlook, days: readonly WorkDay[]): Ribbon {
  return {
    fromEpochH: days[0]!.fromEpochH,
    hours: days.flatMap(({ fromEpochH, toEpochH }) => ribbonOf(outlook, fromEpochH, toEpochH).hours),
    band: outlook.part.field.band,
  }
}
