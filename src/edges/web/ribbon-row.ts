/** One part of a field as a row: its name, what is set for it today, and its ribbon. */
import { html, raw } from 'hono/html'
import { drawRibbon } from '#core/messages/draw-ribbon.ts'
import { partName } from '#core/messages/names.ts'
import { type Ribbon, type RibbonHour, ribbonOf } from '#core/messages/ribbon.ts'
import { area, bareArea, clock, type Manner, moisture } from '#core/messages/words/format.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { Run, Waiting } from '#core/planning/plan.ts'
import type { DayFrame } from './day-frame.ts'
import type { Markup } from './layout.ts'
import type { Words } from './words/words.ts'

export interface RibbonRow {
  readonly outlook: Outlook
  readonly runs: readonly Run[]
  readonly waiting: Waiting | undefined
}

export function ribbonRow(row: RibbonRow, index: number, frame: DayFrame, manner: Manner, words: Words): Markup {
  const { outlook, runs } = row
  const ribbon = ribbonOf(outlook, frame.fromEpochH, frame.toEpochH)
  const name = partName(outlook.part)
  const drawing = drawRibbon(ribbon, {
    id: String(index),
    label: words.ribbonLabel(name, described(ribbon, manner, words)),
    wordOf: (heldBy) => words.held[heldBy],
    moisture: (wb) => moisture(wb, manner),
    runs,
  })
  return html`<li><p class="name"><strong>${name}</strong><span>${facts(row, manner, words)}</span></p>${raw(drawing)}</li>`
}

function facts({ outlook, runs, waiting }: RibbonRow, manner: Manner, words: Words): string {
  const crop = words.crop(outlook.part.field.crop)
  const run = runs[0]
  if (run) {
    const areaHa = runs.reduce((sum, each) => sum + each.areaHa, 0)
    const share =
      areaHa >= run.ofAreaHa * 0.98
        ? area(run.ofAreaHa, manner)
        : words.areaOf(bareArea(areaHa, manner), area(run.ofAreaHa, manner))
    const spans = runs.map(({ startEpochH, endEpochH }) => `${clock(startEpochH, manner)}–${clock(endEpochH, manner)}`)
    return `${crop} · ${share} · ${words.run} ${spans.join(', ')}`
  }
  const turn = waiting?.reason === 'later-turn' ? ` · ${words.fitToday}` : ''
  return `${crop} · ${area(outlook.part.areaHa, manner)}${turn}`
}

/** The ribbon in words, span by span, for who cannot see it. */
function described({ hours, fromEpochH }: Ribbon, manner: Manner, words: Words): string[] {
  const parts: string[] = []
  let from = 0
  for (let n = 1; n <= hours.length; n++) {
    if (n < hours.length && hours[n]!.heldBy === hours[from]!.heldBy) continue
    const at = (h: number) => clock(fromEpochH + h, manner)
    const { heldBy } = hours[from]!
    parts.push(
      heldBy === undefined
        ? words.fitSpan(at(from), at(n), words.chance(meanChance(hours.slice(from, n))))
        : words.heldSpan(at(from), at(n), words.held[heldBy]),
    )
    from = n
  }
  const known = hours.filter(({ medianWb }) => !Number.isNaN(medianWb))
  if (known.length > 0) {
    parts.push(words.moistureSpan(moisture(known[0]!.medianWb, manner), moisture(known.at(-1)!.medianWb, manner)))
  }
  return parts
}

const meanChance = (hours: readonly RibbonHour[]): number =>
  hours.reduce((sum, hour) => sum + hour.chance, 0) / hours.length
