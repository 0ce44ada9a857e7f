import { describe, expect, it } from 'vitest'
import { partsOf } from '#core/field/parts.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import { webApp } from '#edges/web/app.ts'
import { demoService } from './support/demo-service.ts'

const plain = (page: string): string =>
  page
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')

describe('today', () => {
  it('says every line of the morning message and draws a ribbon for every part that stands', async () => {
    const service = await demoService()
    const { message, day } = await service.current()
    const response = await webApp(service).request('/')
    const page = await response.text()
    expect(response.status).toBe(200)
    for (const { text } of sayMorning(message)) expect(plain(page)).toContain(text)
    expect(page.match(/<svg class="ribbon"/g)).toHaveLength(day!.outlooks.length)
    expect(page).toMatch(/<h1>[^<]+<\/h1>/)
  })

  it('holds no inline script, no inline style and no address outside', async () => {
    const page = await (await webApp(await demoService()).request('/')).text()
    expect(page).not.toMatch(/<script(?! src="\/assets\/)|style=|<style|javascript:| on\w+=/i)
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/)
  })

  it('names no field without weather, and says why', async () => {
    const service = await demoService({ noWeather: true })
    const page = await (await webApp(service).request('/')).text()
    expect(page).toContain('No field named today')
    for (const part of service.farm.fields.flatMap(partsOf)) expect(page).not.toContain(part.field.name)
  })

  it('escapes the names in the farm file', async () => {
    const service = await demoService({
      farm: (farm) => ({
        ...farm,
        name: '<b>&"Farm',
        fields: farm.fields.map((field, index) => ({ ...field, name: `<i>${index}"'` })),
      }),
    })
    const page = await (await webApp(service).request('/')).text()
    expect(page).not.toMatch(/<[bi]>/)
    expect(page).toContain('&lt;b&gt;&amp;&quot;Farm')
  })
})
