import { describe, expect, it } from 'vitest'
import type { Letter } from '#app/mail-port.ts'
import { pictureOf } from '#core/messages/picture.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { smtpCarrier } from '#edges/delivery/mail.ts'
import { openPainter } from '#edges/delivery/painter.ts'
import { demoDay } from '#tests/app/support/demo.ts'
import { mailServer } from '#tests/edges/delivery/support/mail-server.ts'
import { keptParcel } from '#tests/edges/delivery/support/parcel.ts'

const made = await demoDay('2010-09-30T05:30-05:00')
const picture = pictureOf(made.message, made.day!.plan, made.day!.outlooks)!
const paint = await openPainter()

describe('the picture of the day', () => {
  it('is a PNG of the size it says (W3C PNG, 5.2 and 11.2.1), the same each time', () => {
    const png = Buffer.from(paint(picture.svg), 'base64')
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10])
    expect(png.toString('latin1', 12, 16)).toBe('IHDR')
    expect(png.readUInt32BE(16)).toBe(840)
    expect(paint(picture.svg)).toBe(png.toString('base64'))
  })

  it('names in its words the runs of the message', () => {
    for (const { part } of made.day!.plan.runs.slice(0, 3)) expect(picture.alt).toContain(part.field.name)
    expect(picture.svg).toContain(made.day!.plan.runs[0]!.part.field.name)
  })

  it('is none on a day without a run', () => {
    expect(pictureOf(made.message, { ...made.day!.plan, runs: [] }, made.day!.outlooks)).toBeUndefined()
  })

  it('stays in the drawing whatever a field is called', () => {
    const trap = '</text><script>alert(1)</script>&"\''
    const runs = made.day!.plan.runs.map((run) => ({
      ...run,
      part: { ...run.part, field: { ...run.part.field, name: trap } },
    }))
    const svg = pictureOf(made.message, { ...made.day!.plan, runs }, made.day!.outlooks)!.svg
    expect(svg).not.toContain('<script>')
    expect(paint(svg).length).toBeGreaterThan(1000)
  })

  it('travels with the letter, which stays under 100 KB and says the same without it', async () => {
    const server = await mailServer()
    const carrier = smtpCarrier({ url: server.url, from: 'Threshday <day@farm.example>' })
    const letter: Letter = {
      to: { name: 'Orla Fenn', address: 'orla@example.org' },
      subject: 'Run Twin Elms',
      text: 'Run Twin Elms\n',
      html: renderHtml(made.message, { cid: 'day', alt: picture.alt }),
      pictures: [{ cid: 'day', mediaType: 'image/png', base64: paint(picture.svg) }],
    }
    expect(await carrier.carry(keptParcel({ body: JSON.stringify(letter) }))).toMatchObject({ kind: 'taken' })
    const { mail, raw } = server.taken[0]!
    carrier.close()
    await server.close()
    expect(raw.length).toBeLessThan(100_000)
    expect(mail.attachments.map(({ contentType, cid, related }) => ({ contentType, cid, related }))).toEqual([
      { contentType: 'image/png', cid: 'day', related: true },
    ])
    expect(renderHtml(made.message, { cid: 'day', alt: picture.alt })).toMatch(
      /<img src="cid:day" alt="The day drawn: [^"]+"/,
    )
  })
})
