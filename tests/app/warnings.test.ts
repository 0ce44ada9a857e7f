import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dayJson } from '#app/day-json.ts'
import { SourceUnreachable } from '#app/failures.ts'
import { dayFromSources } from '#app/morning.ts'
import type { Warning } from '#app/ports.ts'
import { inForce, noticeCodes, noticeOf, placesToWarn, quotedFor } from '#app/warnings.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText } from '#core/messages/render-text.ts'
import { LEVEL_CARE, LEVEL_STOP, OFFICIAL_NOTICES } from '#core/science/fire/care.ts'
import { alertsSchema } from '#edges/sources/nws/schema.ts'
import { warningsInForce } from '#edges/sources/nws/warnings.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { testWarning, warningSource, watchOver } from '#tests/app/support/watch.ts'
import { goodBody, NEBRASKA_NOW } from '#tests/edges/sources/support/world.ts'
import { DEMO_NOW, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

const NOW = 500_000
const warning = (more: Partial<Warning> = {}): Warning =>
  testWarning({
    headline: 'Red Flag Warning issued December 2 at 2:00PM CST until December 3 at 7:00PM CST by NWS Omaha/Valley NE',
    sentAtEpochH: NOW - 1,
    effectiveAtEpochH: NOW - 1,
    onsetAtEpochH: NOW + 5.5,
    expiresAtEpochH: NOW + 8,
    endsAtEpochH: NOW + 12.25,
    ...more,
  })
const TOLD = { source: 'NWS', where: 'https://example.org/' }
/** The US government's own test bundle: 38 alerts. */
const bundle = () =>
  warningsInForce(
    alertsSchema.parse(goodBody('/alerts/active')).features.map(({ properties }) => properties),
    NEBRASKA_NOW,
    TOLD,
  )

describe('what an event means for fire', () => {
  it.each([
    // Event names of the US National Weather Service's own test bundle.
    ['Red Flag Warning', 'warning'],
    ['Fire Weather Watch', 'warning'],
    ['Wind Advisory', 'warning'],
    ['High Wind Warning', 'warning'],
    ['Small Craft Advisory', 'none'],
    ['Winter Storm Watch', 'none'],
    ['Flood Warning', 'none'],
    ['Severe Thunderstorm Warning', 'none'],
    // From memory: other names of that service, and bans as Australian and local issuers call them.
    ['Extreme Fire Danger', 'warning'],
    ['Dust Storm Warning', 'warning'],
    ['Wind Chill Warning', 'none'],
    ['Lake Wind Advisory', 'none'],
    ['Total Fire Ban', 'ban'],
    ['Burn Ban', 'ban'],
    ['Harvest and Vehicle Movement Ban', 'ban'],
  ])('%s: %s', (event, notice) => {
    expect(noticeOf(warning({ event }))).toBe(notice)
  })

  it('the category of the protocol counts where the name says nothing', () => {
    expect(noticeOf(warning({ event: 'Special Statement', category: 'Fire' }))).toBe('warning')
  })
})

describe('what is in force', () => {
  it.each<[string, Partial<Warning>, boolean]>([
    ['a real one', {}, true],
    ['one whose message is over but not its event', { expiresAtEpochH: NOW - 1 }, true],
    ['one whose event is over but not its message', { endsAtEpochH: NOW - 1, expiresAtEpochH: NOW + 1 }, true],
    ['one that is over', { endsAtEpochH: NOW - 1, expiresAtEpochH: NOW - 1 }, false],
    ['one that ends now', { endsAtEpochH: NOW, expiresAtEpochH: NOW }, false],
    ['an exercise', { status: 'Exercise' }, false],
    ['a test', { status: 'Test' }, false],
    ['a draft', { status: 'Draft' }, false],
    ['a system message', { status: 'System' }, false],
    ['a cancel', { messageType: 'Cancel' }, false],
    ['an update', { messageType: 'Update', replaces: ['older'] }, true],
    ['an all-clear', { response: 'AllClear' }, false],
    ['one that is past', { urgency: 'Past' }, false],
  ])('%s: %s', (_, more, holds) => {
    expect(inForce([warning(more)], NOW)).toHaveLength(holds ? 1 : 0)
  })

  it('an update takes the place of what it updates, a cancel takes it away, a drill does neither', () => {
    const old = warning()
    const ids = (more: Partial<Warning>) =>
      inForce([old, warning({ id: 'two', replaces: ['one'], ...more })], NOW).map(({ id }) => id)
    expect(ids({ messageType: 'Update' })).toEqual(['two'])
    expect(ids({ messageType: 'Cancel' })).toEqual([])
    expect(ids({ messageType: 'Update', status: 'Exercise' })).toEqual(['one'])
  })
})

describe('codes by hour', () => {
  it('cover every hour that the event touches, and no other', () => {
    const codes = noticeCodes([warning()], NOW, 24)
    expect([...codes].flatMap((code, h) => (code ? [h] : []))).toEqual([5, 6, 7, 8, 9, 10, 11, 12])
    expect(new Set(codes)).toEqual(new Set([0, OFFICIAL_NOTICES.indexOf('warning')]))
  })

  it('take the life of the message where the event has no times, and where it ends before it begins', () => {
    const plain: Partial<Warning> = warning({ effectiveAtEpochH: NOW + 2, expiresAtEpochH: NOW + 4 })
    const { onsetAtEpochH: _, endsAtEpochH: __, ...timeless } = plain as Warning
    expect([...noticeCodes([timeless], NOW, 6)]).toEqual([0, 0, 1, 1, 0, 0])
    expect([...noticeCodes([warning({ endsAtEpochH: NOW + 3, expiresAtEpochH: NOW + 2 })], NOW, 6)]).toEqual([
      1, 1, 0, 0, 0, 0,
    ])
  })

  it('a ban outranks a warning, whichever comes first', () => {
    const ban = warning({ id: 'ban', event: 'Burn Ban', onsetAtEpochH: NOW + 7, endsAtEpochH: NOW + 9 })
    for (const both of [
      [warning(), ban],
      [ban, warning()],
    ])
      expect([...noticeCodes(both, NOW, 12)]).toEqual([0, 0, 0, 0, 0, 1, 1, 2, 2, 1, 1, 1])
  })

  it('any times at all give codes of notices only', () => {
    const hour = fc.double({ min: NOW - 500, max: NOW + 500, noNaN: true })
    fc.assert(
      fc.property(hour, hour, hour, (onsetAtEpochH, endsAtEpochH, expiresAtEpochH) => {
        const codes = noticeCodes([warning({ onsetAtEpochH, endsAtEpochH, expiresAtEpochH })], NOW, 48)
        expect(codes.every((code) => code === 0 || code === 1)).toBe(true)
      }),
    )
  })

  it('of a real bundle: the Red Flag Warning, three watches and the winds', () => {
    const fire = bundle().filter((one) => noticeOf(one) === 'warning')
    const counts = Map.groupBy(fire, ({ event }) => event)
    expect(counts.get('Red Flag Warning')?.length).toBe(1)
    expect(counts.get('Fire Weather Watch')?.length).toBeGreaterThan(0)
    expect(Math.max(...noticeCodes(fire, Math.floor(NEBRASKA_NOW), 96))).toBe(1)
  })
})

describe('words to quote', () => {
  it('are the issuer’s, unaltered, the gravest first, no more than three', () => {
    const all = [
      warning({ id: 'a', event: 'Wind Advisory', severity: 'Moderate', headline: '  odd  spacing, "quotes" & <tags>' }),
      warning({ id: 'b', event: 'Flood Warning', severity: 'Severe', headline: 'flood' }),
      warning({ id: 'c', event: 'Frost Advisory', severity: 'Minor', headline: 'frost' }),
      warning({ id: 'd' }),
      warning({ id: 'e', event: 'Total Fire Ban', severity: 'Minor', headline: 'ban' }),
    ]
    expect(quotedFor(all, NOW, NOW + 24).map(({ headline }) => headline)).toEqual([
      'ban',
      warning().headline,
      '  odd  spacing, "quotes" & <tags>',
    ])
  })

  it('are those of the span asked for, and the name of the event where there is no headline', () => {
    const { headline: _, ...bare } = warning()
    expect(quotedFor([bare], NOW + 12, NOW + 20)[0]?.headline).toBe('Red Flag Warning')
    expect(quotedFor([bare], NOW + 13, NOW + 20)).toEqual([])
    expect(quotedFor([bare], NOW, NOW + 5)).toEqual([])
  })
})

describe('places to ask for', () => {
  it('one where the farm lies close together, a few where it does not', async () => {
    const { farm } = await loadDemo()
    const home = { latDeg: 40.05, lonDeg: -88.05, elevationM: 200 }
    const at = (latDeg: number) => ({ ...farm.fields[0]!, centre: { latDeg, lonDeg: -88.05 } })
    expect(placesToWarn({ home, fields: [at(40.06), at(40.04)] })).toEqual([home])
    expect(placesToWarn({ home, fields: [40.5, 40.9, 41.3, 41.7, 42.1].map(at) })).toHaveLength(4)
  })
})

describe('the day under warnings', () => {
  const noon = DEMO_NOW + 6.5
  const redFlag = (more: Partial<Warning> = {}) =>
    warning({ onsetAtEpochH: noon, endsAtEpochH: noon + 8, expiresAtEpochH: noon + 8, ...more })
  const made = async (fetch: () => Promise<readonly Warning[]>, nowEpochH = DEMO_NOW) => {
    const { farm, weather } = await loadDemo()
    const suppliers = {
      forecasts: [recordedForecast(weather, 240)],
      observations: [recordedObservations(weather)],
      warnings: watchOver([warningSource(fetch)]),
    }
    return { farm, ...(await dayFromSources(farm, suppliers, nowEpochH, undefined)) }
  }

  it('lift our own level by one, hour by hour, and never lower it', async () => {
    const demo = await loadDemo()
    const own = demoMorning(demo).fire.level
    const { day } = await made(async () => [redFlag()])
    const lifted = day!.fire.level
    const first = Math.floor(noon) - day!.ahead.startEpochH
    for (let h = 0; h < own.length; h++) {
      const isWarned = h >= first && h < first + 8
      if (!isWarned) expect(lifted[h]).toBe(own[h])
      else expect(lifted[h]).toBe(own[h] === LEVEL_CARE || own[h] === LEVEL_STOP ? LEVEL_STOP : LEVEL_CARE)
    }
    expect(demoMorning(demo).message.fire.level).toBe('care')
    expect(day!.message.fire.level).toBe('stop')
  })

  it('a ban stops the hours it holds, and its own words say why', async () => {
    const { day, message } = await made(async () => [
      redFlag({ event: 'Burn Ban', headline: 'No open flame in Ford County' }),
    ])
    const first = Math.floor(noon) - day!.ahead.startEpochH
    expect([...day!.fire.level.subarray(first, first + 8)]).toEqual(new Array(8).fill(LEVEL_STOP))
    expect(message.fire.banText).toBe('No open flame in Ford County')
  })

  it('quotes the issuer in text, HTML and JSON, in every language alike', async () => {
    const headline = 'RED FLAG WARNING <until> 7 PM & "no" burning'
    const { message, day } = await made(async () => [redFlag({ headline })])
    const line = `“${headline}” (NWS Omaha/Valley NE)`
    for (const language of ['en', 'es'] as const) {
      expect(renderText({ ...message, language }).split('\n')).toContain(line)
      expect(renderHtml({ ...message, language })).toContain(
        'RED FLAG WARNING &lt;until&gt; 7 PM &amp; &quot;no&quot; burning',
      )
    }
    expect(dayJson(day!).official).toMatchObject({ unread: false, warnings: [{ headline, fireNotice: 'warning' }] })
  })

  it('says so when the issuer could not be asked', async () => {
    const { message, failures } = await made(async () => {
      throw new SourceUnreachable('is silent', TOLD)
    })
    expect(failures.join()).toContain('is silent')
    expect(renderText(message)).toContain('Official warnings could not be read')
    expect(renderText({ ...message, language: 'es' })).toContain('No se pudieron leer los avisos oficiales')
  })

  it('are told on a day without weather too', async () => {
    const { weather } = await loadDemo()
    const late = weather.startEpochH + weather.hours + 400
    const { message } = await made(
      async () => [warning({ onsetAtEpochH: late, endsAtEpochH: late + 9, expiresAtEpochH: late + 9 })],
      late,
    )
    expect(message.headline.kind).toBe('no-forecast')
    expect(renderText(message)).toContain('by NWS Omaha/Valley NE”')
  })
})
