import { describe, expect, it } from 'vitest'
import { type Day, makeDay } from '#app/make-day.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Farm, Patch } from '#core/operation/farm.ts'
import { splitAt } from '#edges/sources/recorded/index.ts'
import { DEMO_NOW, loadDemo } from '#tests/support/demo-day.ts'

const { farm, weather } = await loadDemo()
const dayOf = (told: Farm): Day =>
  makeDay({ farm: told, nowEpochH: DEMO_NOW, weather: splitAt(weather, DEMO_NOW, 240), standingHa: new Map() })
const plain = dayOf(farm)
const first = plain.plan.runs.find(({ part }) => part.field.patches.length === 0)!
const draw = (handling: Patch['handling']): Patch => ({
  id: 'draw',
  name: 'Draw',
  share: 0.1,
  kind: 'green',
  laterDays: 4,
  handling,
})
const withDraw = (handling: Patch['handling']): Day =>
  dayOf({
    ...farm,
    fields: farm.fields.map((field) =>
      field.id === first.part.field.id ? { ...field, patches: [draw(handling)] } : field,
    ),
  })
const runOf = ({ plan }: Day) => plan.runs.find(({ part }) => part.key === first.part.key)

describe('a patch the crew cuts through', () => {
  const through = withDraw('blend')
  const left = withDraw('leave')

  it('is part of the run of its field, wetter than the main stand and all of its area', () => {
    const { field } = first.part
    const alone = through.partOutlooks.find(({ part }) => part.key === field.id)!
    const load = through.outlooks.find(({ part }) => part.key === field.id)!
    expect(load.part.areaHa).toBeCloseTo(field.areaHa, 9)
    expect(load.medianWb[10]!).toBeGreaterThan(alone.medianWb[10]!)
    expect(runOf(through)!.part.through).toEqual([draw('blend')])
    const all = [...through.plan.runs, ...through.plan.waiting]
    expect(all.some(({ part }) => part.patch?.id === 'draw')).toBe(false)
  })

  it('is told with the run, in both languages; one left standing is not', () => {
    const inLanguage = (day: Day, language: 'en' | 'es') => renderText({ ...day.message, language })
    expect(inLanguage(through, 'en')).toContain('Cut through Draw: moistures are of the blended load.')
    expect(inLanguage(through, 'es')).toContain('Corte también Draw: las humedades son de la carga mezclada.')
    expect(inLanguage(left, 'en')).not.toContain('Cut through')
  })

  it('keeps forecasts of its own, to be held against readings in it', () => {
    expect(through.partOutlooks.map(({ part }) => part.key)).toContain(`${first.part.key}/draw`)
    expect(left.outlooks.map(({ part }) => part.key)).toContain(`${first.part.key}/draw`)
  })
})
