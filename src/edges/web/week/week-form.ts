/** Changes of the plan as plain forms send them, and the same again as hidden fields of the form that keeps them. */
import { html } from 'hono/html'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { Change, type ChangeJson, changeFrom, changeJson } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'
import { areaHa, decimal } from '#edges/web/typed.ts'
import { outfitOfForm } from './outfit-form.ts'

type Sent = Record<string, string | File | (string | File)[]>

/** @returns nothing for a form that is none of ours. A cart or truck more is one like the outfit's last. */
export function changeOfForm(sent: Sent, farm: Farm): PlanChange | undefined {
  const { data } = Change.safeParse(saidBy(sent, farm))
  return data && changeFrom(data, farm)
}

function saidBy({ key: _, ...said }: Sent, farm: Farm): unknown {
  const last = farm.outfits.find(({ id }) => id === said.outfit)
  switch (said.kind) {
    case 'pin': {
      const { outfit, area, areaHa: hidden, ...pin } = said
      const ha = area ? areaHa(decimal(String(area)), farm) : hidden && Number(hidden)
      return { ...pin, ...(outfit && { outfit }), ...(ha !== undefined && ha !== '' && { areaHa: ha }) }
    }
    case 'days-off':
      return { ...said, daysOff: [said.daysOff ?? []].flat().map(Number) }
    case 'add-cart':
      return { ...said, cart: last?.carts.at(-1) }
    case 'add-truck':
      return { ...said, truck: last?.trucks.at(-1) }
    case 'add-outfit':
      return { kind: said.kind, outfit: said.machines === undefined ? outfitOfForm(said, farm) : parsed(said.machines) }
    default:
      return said
  }
}

function parsed(text: unknown): unknown {
  try {
    return JSON.parse(String(text))
  } catch {
    return undefined
  }
}

export function hiddenFields(change: PlanChange): Markup {
  const json = changeJson(change)
  // A cart or truck is found again by its outfit.
  const fields = Object.entries(json.kind === 'add-outfit' ? whole(json) : json).flatMap(([name, value]) =>
    (Array.isArray(value) ? value : [value])
      .filter((one) => typeof one !== 'object')
      .map((one) => [name, String(one)] as const),
  )
  return html`${fields.map(([name, value]) => html`<input type="hidden" name="${name}" value="${value}">`)}`
}

/** Nothing of a new outfit is known by its name yet. */
const whole = ({ kind, outfit }: Extract<ChangeJson, { kind: 'add-outfit' }>) => ({
  kind,
  machines: JSON.stringify(outfit),
})
