import { describe, expect, it } from 'vitest'
import { webApp } from '#edges/web/app.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'

describe('week', () => {
  it('draws every part that stands over seven days, and says its windows in words', async () => {
    const service = await demoService()
    const { day } = await service.current()
    const page = await (await webApp(service).request('/week')).text()
    const ribbons = [...page.matchAll(/<svg class="ribbon"[^>]*aria-label="([^"]*)"/g)].map(([, label]) => label!)
    expect(ribbons).toHaveLength(day!.outlooks.length)
    // Seven days are parted by six lines, on each ribbon and over them.
    expect(page.match(/class="division"/g)).toHaveLength(6 * (ribbons.length + 1))
    expect(ribbons.some((label) => /\d+:\d\d–\d+:\d\d, \d in 10/.test(label))).toBe(true)
    expect(page).not.toMatch(/NaN|undefined/)
  })

  it('counts the parts that have a window', async () => {
    const service = await demoService()
    const { day } = await service.current()
    const page = await (await webApp(service).request('/week')).text()
    const [, fit, all] = /<h1>(\d+) of (\d+) have a window in the next 7 days\.<\/h1>/.exec(page)!
    expect(Number(all)).toBe(day!.outlooks.length)
    const ahead = day!.nowEpochH + 7 * 24
    const soon = day!.outlooks.filter(({ windows }) => windows.some(({ startEpochH }) => startEpochH < ahead - 24))
    expect(Number(fit)).toBeGreaterThanOrEqual(soon.length)
    expect(Number(fit)).toBeLessThanOrEqual(Number(all))
  })

  it('says so without weather', async () => {
    const page = await (await webApp(await demoService({ noWeather: true })).request('/week')).text()
    expect(page).toContain('No usable weather.')
  })

  it('keeps its hours when the clock changes in the week', async () => {
    // The demo's clock moved to 3 November 2010: daylight saving time ended in the US on 7 November 2010 at 2:00
    // (Energy Policy Act of 2005: first Sunday of November).
    const page = await (await webApp(await demoService({ laterH: 34 * 24 })).request('/week')).text()
    expect(page).toMatch(/<svg class="ribbon"|No usable weather|Nothing/)
    expect(page).not.toMatch(/NaN|undefined/)
  })
})
