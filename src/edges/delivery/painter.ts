/** SVG to PNG, with a font of its own: the same picture on every machine. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { initWasm, Resvg } from '@resvg/resvg-wasm'
import type { Painter } from '#app/painter.ts'

const FONTS = ['DejaVuSans.ttf', 'DejaVuSans-Bold.ttf']
/** Pixels a pixel of the drawing: sharp on a phone, small in a mail. */
const ZOOM = 1.5

let started: Promise<void> | undefined

export async function openPainter(): Promise<Painter> {
  const find = createRequire(import.meta.url)
  started ??= readFile(find.resolve('@resvg/resvg-wasm/index_bg.wasm')).then((wasm) => initWasm(wasm))
  await started
  const fontBuffers = await Promise.all(FONTS.map((name) => readFile(find.resolve(`dejavu-fonts-ttf/ttf/${name}`))))
  return (svg) => {
    const drawing = new Resvg(svg, {
      fitTo: { mode: 'zoom', value: ZOOM },
      font: { fontBuffers, defaultFontFamily: 'DejaVu Sans', loadSystemFonts: false },
    })
    const image = drawing.render()
    const base64 = Buffer.from(image.asPng()).toString('base64')
    image.free()
    drawing.free()
    return base64
  }
}
