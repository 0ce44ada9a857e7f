/** The ground under a part: its topsoil, and the water at which it no longer carries a loaded combine and cart. */
import { carryLimits } from '#core/science/soil/carry.ts'
import { type Topsoil, topsoilOf } from '#core/science/soil/topsoil.ts'
import type { FieldPart } from './parts.ts'

/** A wet hole is ground of its field without an outlet. */
export const groundOf = ({ field, patch }: FieldPart): Topsoil =>
  topsoilOf(field.soil.texture, patch?.kind === 'wet-hole' ? 'poor' : field.soil.drainage)

/** @returns topsoil depletion below which the ground is no-go [mm], by the rule of `carryLimits` as the farm shifted it. */
export const noGoBelowMm = ({ field }: FieldPart, ground: Topsoil): number =>
  ground.capacityMm * (1 - carryLimits('harvest', field.soil.carryShift ?? 0).softTo)
