/** Changes of the plan as plain forms send them, and the same again as hidden fields of the form that keeps them. */
import { html } from 'hono/html'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { Change, changeFrom, changeJson } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'

type Sent = Record<string, string | File | (string | File)[]>

/** @returns nothing for a form that is none of ours. A cart or truck more is one like the outfit's last. */
export function changeOfForm(sent: Sent, farm: Farm): PlanChange | undefined {
  const { key: _, daysOff, ...rest } = sent
  const last = farm.outfits.find(({ id }) => id === sent.outfit)
  const more = {
    ...(sent.kind === 'days-off' && { daysOff: [daysOff ?? []].flat().map(Number) }),
    ...(sent.kind === 'add-cart' && { cart: last?.carts.at(-1) }),
    ...(sent.kind === 'add-truck' && { truck: last?.trucks.at(-1) }),
  }
  const { data } = Change.safeParse({ ...rest, ...more })
  return data && changeFrom(data, farm)
}

export function hiddenFields(change: PlanChange): Markup {
  const fields = Object.entries(changeJson(change)).flatMap(([name, value]) =>
    // Machines are found again by their outfit.
    (Array.isArray(value) ? value : [value])
      .filter((one) => typeof one !== 'object')
      .map((one) => [name, String(one)] as const),
  )
  return html`${fields.map(([name, value]) => html`<input type="hidden" name="${name}" value="${value}">`)}`
}
