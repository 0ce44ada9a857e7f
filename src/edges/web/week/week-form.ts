/** Changes of the plan as plain forms send them, and the same again as hidden fields of the form that keeps them. */
import { html } from 'hono/html'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { Change, type ChangeJson, changeFrom, changeJson } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'
import type { Sent } from '#edges/web/refused-form.ts'
import { areaHa, decimal } from '#edges/web/typed.ts'
import { outfitOfForm } from './outfit-form.ts'

/** @returns nothing for a form that is none of ours. A cart or truck more is one like the outfit's last. */
export function changeOfForm(sent: Sent, farm: Farm): PlanChange | undefined {
  const { data } = Change.safeParse(saidBy(sent, farm))
  return data && changeFrom(data, farm)
}

/** @returns the change as the API would be told it, not checked yet. */
export function saidBy({ key: _, typed: __, ...said }: Sent, farm: Farm): unknown {
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

/** A form as it was typed, in one value of the form that keeps it. */
export function wrapped({ key: _, typed: __, ...sent }: Sent): string {
  const pairs = Object.entries(sent).flatMap(([name, value]) => [value].flat().map((one) => [name, String(one)]))
  return new URLSearchParams(pairs).toString()
}

/** @returns the form as it was typed at first, where this is one that keeps it. */
export function unwrapped(sent: Sent): Sent {
  if (typeof sent.typed !== 'string') return sent
  const typed: Record<string, string[]> = {}
  for (const [name, value] of new URLSearchParams(sent.typed)) typed[name] = [...(typed[name] ?? []), value]
  return Object.fromEntries(Object.entries(typed).map(([name, all]) => [name, all.length === 1 ? all[0]! : all]))
}

/** The change once more, for the form that keeps it. */
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
