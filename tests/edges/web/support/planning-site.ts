/** The demo with its planner at work behind the pages: a few fields, so that a plan is quick. */

import type { Solver } from '#app/solver-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { type DemoPlanning, type DemoPlanningChange, demoPlanning } from '#tests/support/demo-planning.ts'
import { type Site, siteOf } from './people.ts'

export interface PlanningSite {
  readonly site: Site
  readonly planning: DemoPlanning
}

/** One of them was cut before the demo starts. */
const FIELDS = ['mill-forty', 'long-eighty', 'far-half', 'twin-elms', 'home-place']
export const fewFields = (farm: Farm): Farm => ({
  ...farm,
  fields: farm.fields.filter(({ id }) => FIELDS.includes(id)),
})

/** @param solver absent = plans by hand. */
export async function planningSite(
  solver: Solver | undefined,
  change: DemoPlanningChange & { readonly openReading?: boolean } = { farm: fewFields },
): Promise<PlanningSite> {
  const planning = await demoPlanning(solver, change)
  const { openReading = false } = change
  const site = await siteOf(planning.service, { desk: planning.desk, openReading }, undefined, {
    records: planning.records,
  })
  return { site, planning }
}
