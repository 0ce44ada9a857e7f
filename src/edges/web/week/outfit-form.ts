/** The form for one outfit more: crew, heads and how many machines; what else a machine is it takes from an outfit at hand. */
import { html } from 'hono/html'
import { idFrom } from '#app/patches.ts'
import type { Manner } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { MOST_MACHINES } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'
import { decimal, speedMs, typedSpeed, typedWidth, widthM } from '#edges/web/typed.ts'
import type { Words } from '#edges/web/words/words.ts'
import { dayTicks, options, timeInput } from './inputs.ts'

/** @returns what the form says of an outfit, to be checked; nothing where there is none like it. */
export function outfitOfForm(said: Readonly<Record<string, unknown>>, farm: Farm): unknown {
  const { like, name, combines, width, speed, crops, carts, trucks, start, end, daysOff } = said
  const model = farm.outfits.find(({ id }) => id === like)
  const [combine] = model?.combines ?? []
  if (!model || !combine || typeof name !== 'string') return undefined
  const head = {
    crops: [crops ?? []].flat(),
    widthM: widthM(number(width), farm),
    speedMs: speedMs(number(speed), farm),
    efficiency: combine.heads[0]?.efficiency,
  }
  return {
    id: idFrom(name),
    name,
    combines: copies({ ...combine, heads: [head] }, combines),
    carts: copies(model.carts.at(-1), carts),
    trucks: copies(model.trucks.at(-1), trucks),
    start,
    end,
    daysOff: [daysOff ?? []].flat().map(Number),
  }
}

const number = (text: unknown): number => (typeof text === 'string' ? decimal(text) : Number.NaN)

/** Nothing for a number that no outfit has. */
function copies<T>(machine: T | undefined, said: unknown): T[] | undefined {
  const count = said === undefined ? 0 : number(said)
  if (!Number.isInteger(count) || count < 0 || count > MOST_MACHINES) return undefined
  return machine === undefined ? [] : Array.from({ length: count }, () => machine)
}

/** @returns nothing on a farm without an outfit: there is nothing to take the machines from. */
export function outfitInputs(farm: Farm, manner: Manner, words: Words): Markup | undefined {
  const [model] = farm.outfits
  const [combine] = model?.combines ?? []
  const [head] = combine?.heads ?? []
  if (!model || !combine || !head) return undefined
  const { plan } = words
  const able = new Set(combine.heads.flatMap(({ crops }) => crops))
  const grown = [...new Set(farm.fields.map(({ crop }) => crop))]
  const typed = (name: string, label: string, value: string) =>
    html`<label>${label}<input name="${name}" value="${value}" inputmode="decimal" autocomplete="off" required pattern="[0-9]+([.,][0-9]+)?" size="5"></label>`
  const count = (name: string, label: string, least: number) =>
    html`<label>${label}<input type="number" name="${name}" value="1" min="${least}" max="${MOST_MACHINES}" required></label>`
  return html`<label>${plan.outfitName}<input name="name" required maxlength="100" autocomplete="off"></label>
${
  farm.outfits.length > 1
    ? html`<label>${plan.like}<select name="like">${options(farm.outfits.map(({ id, name }) => [id, name]))}</select></label>`
    : html`<input type="hidden" name="like" value="${model.id}">`
}
${count('combines', plan.combines, 1)}${typed('width', plan.headWidth[farm.units], typedWidth(head.widthM, farm))}${typed('speed', plan.speed[farm.units], typedSpeed(head.speedMs, farm))}
<fieldset><legend>${plan.headFor}</legend>${grown.map((crop) => html`<label class="tick"><input type="checkbox" name="crops" value="${crop}"${able.has(crop) ? html` checked` : ''}>${words.crop(crop)}</label>`)}</fieldset>
${model.carts.length > 0 ? count('carts', plan.carts, 0) : ''}${model.trucks.length > 0 ? count('trucks', plan.trucks, 0) : ''}
${timeInput('start', plan.starts, model.crewHours.startMinute)}${timeInput('end', plan.ends, model.crewHours.endMinute)}
${dayTicks(model.daysOff, plan.daysOff, manner)}
<p class="quiet">${plan.likeHelp(farm.outfits.length > 1 ? undefined : model.name)}</p>`
}
