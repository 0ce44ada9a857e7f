/** The form for one outfit more: its machines, crew and hours. It starts with what an outfit of the farm has. */
import { html } from 'hono/html'
import { idFrom } from '#app/patches.ts'
import type { Manner } from '#core/messages/words/format.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import { MOST_MACHINES } from '#edges/web/api/plan-changes.ts'
import { ticks } from '#edges/web/choices.ts'
import type { Markup } from '#edges/web/layout.ts'
import type { Typed } from '#edges/web/refused-form.ts'
import { decimal, grainL, speedMs, typedGrain, typedPercent, typedSpeed, typedWidth, widthM } from '#edges/web/typed.ts'
import type { Words } from '#edges/web/words/words.ts'
import { dayTicks, timeInput } from './inputs.ts'

/** @returns what the form says of an outfit, to be checked. Its machines bear its name. */
export function outfitOfForm(said: Readonly<Record<string, unknown>>, farm: Farm): unknown {
  const { name, crops, start, end, daysOff } = said
  if (typeof name !== 'string') return undefined
  const number = (input: string): number => {
    const text = said[input]
    return typeof text === 'string' && text.trim() !== '' ? decimal(text) : Number.NaN
  }
  const litres = (input: string): number => grainL(number(input), farm)
  const ms = (input: string): number => speedMs(number(input), farm)
  const head = {
    crops: [crops ?? []].flat(),
    widthM: widthM(number('width'), farm),
    speedMs: ms('speed'),
    efficiency: number('efficiency') / 100,
  }
  const combine = { name, tankL: litres('tank'), unloadLPerS: litres('unload'), heads: [head] }
  const cart = { name, capacityL: litres('cartSize'), unloadLPerS: litres('cartUnload') }
  const truck = { name, capacityL: litres('truckSize'), roadSpeedMs: ms('roadSpeed') }
  return {
    id: idFrom(name),
    name,
    combines: copies(combine, number('combines')),
    carts: copies(cart, number('carts')),
    trucks: copies(truck, number('trucks')),
    start,
    end,
    daysOff: [daysOff ?? []].flat().map(Number),
  }
}

/** Nothing for a number that no outfit has. */
const copies = <T>(machine: T, count: number): T[] | undefined =>
  Number.isInteger(count) && count >= 0 && count <= MOST_MACHINES
    ? Array.from({ length: count }, () => machine)
    : undefined

/** @param like id of the outfit to start with; the first where there is none such. @returns nothing on a farm without any. */
export function outfitInputs(
  farm: Farm,
  like: string | undefined,
  typed: Typed,
  manner: Manner,
  words: Words,
): Markup | undefined {
  const { units, outfits } = farm
  const model = outfits.find(({ id }) => id === like) ?? outfits[0]
  const [combine] = model?.combines ?? []
  const [head] = combine?.heads ?? []
  if (!model || !combine || !head) return undefined
  const { plan } = words
  const able = new Set(combine.heads.flatMap(({ crops }) => crops))
  const grown = [...new Set(farm.fields.map(({ crop }) => crop))]
  const [cart, truck] = [lastOf('carts', model, farm), lastOf('trucks', model, farm)]
  const { asked, marks, text } = typed
  const figure = (name: string, label: string, value: string | undefined) =>
    asked(
      name,
      html`<label>${label}<input name="${name}" value="${text(name, value ?? '')}" inputmode="decimal" autocomplete="off"${value === undefined ? '' : html` required`} pattern="[0-9]+([.,][0-9]+)?" size="5"${marks(name)}></label>`,
    )
  const grain = (litres: number | undefined) => (litres === undefined ? undefined : typedGrain(litres, farm))
  const count = (name: string, least: number, value: number) =>
    asked(
      name,
      html`<label>${plan.howMany}<input type="number" name="${name}" value="${text(name, String(value))}" min="${least}" max="${MOST_MACHINES}" required${marks(name)}></label>`,
    )
  return html`${asked('name', html`<label>${plan.outfitName}<input name="name" value="${text('name', '')}" required maxlength="100" autocomplete="off"${marks('name')}></label>`)}
<fieldset><legend>${plan.combines}</legend>${count('combines', 1, 1)}${figure('tank', plan.tank[units], grain(combine.tankL))}${figure('unload', plan.unload[units], grain(combine.unloadLPerS))}${figure('width', plan.headWidth[units], typedWidth(head.widthM, farm))}${figure('speed', plan.speed[units], typedSpeed(head.speedMs, farm))}${figure('efficiency', plan.efficiency, typedPercent(head.efficiency))}</fieldset>
${ticks(
  'crops',
  plan.headFor,
  grown.map((crop) => [crop, words.crop(crop)]),
  grown.filter((crop) => able.has(crop)),
  typed,
)}
<fieldset><legend>${plan.carts}</legend>${count('carts', 0, cart ? 1 : 0)}${figure('cartSize', plan.holds[units], grain(cart?.capacityL))}${figure('cartUnload', plan.unload[units], grain(cart?.unloadLPerS))}</fieldset>
<fieldset><legend>${plan.trucks}</legend>${count('trucks', 0, truck ? 1 : 0)}${figure('truckSize', plan.holds[units], grain(truck?.capacityL))}${figure('roadSpeed', plan.roadSpeed[units], truck && typedSpeed(truck.roadSpeedMs, farm))}</fieldset>
${timeInput('start', plan.starts, model.crewHours.startMinute, typed)}${timeInput('end', plan.ends, model.crewHours.endMinute, typed)}
${dayTicks(model.daysOff, plan.daysOff, manner, typed)}
<p class="quiet">${plan.likeHelp(model.name)}${outfits
    .filter(({ id }) => id !== model.id)
    .map(
      ({ id, name }) => html` <a href="/week?like=${encodeURIComponent(id)}#one-more">${plan.likeOther(name)}</a>`,
    )}</p>`
}

/** The outfit's own; of an outfit without any, another's. */
const lastOf = <K extends 'carts' | 'trucks'>(
  kind: K,
  model: Outfit,
  { outfits }: Farm,
): Outfit[K][number] | undefined => [model, ...outfits].find((outfit) => outfit[kind].length > 0)?.[kind].at(-1)
