/** Whether the ground carries a loaded combine and cart. */
import { relativeTopsoilWater, type Topsoil } from './topsoil.ts'

/** `firm`: go. `soft`: care, ruts under heavy carts and tanks. `no-go`: stay out. */
export type GroundState = 'firm' | 'soft' | 'no-go'

/** Topsoil water over field capacity up to which the ground is firm, and up to which it is soft [-]. */
export interface CarryLimits {
  readonly firmTo: number
  readonly softTo: number
}

/** Words for why, shown to people. */
export const CARRY_RULE =
  'Topsoil water against field capacity: firm up to 95 %, soft up to 100 %, no-go above or under standing water ' +
  '(non-workday rule of Rutledge & McHardy 1968; harvest allowed nearer to field capacity than tillage, ' +
  'Rounsevell & Jones 1993).'

const HARVEST: CarryLimits = { firmTo: 0.95, softTo: 1 }
const TILLAGE: CarryLimits = { firmTo: 0.9, softTo: 0.95 }
const SHIFT_LIMIT = 0.3

/**
 * The limits for an operation, shifted by what the farm knows of its ground and machines.
 *
 * @param operation harvest goes on wetter ground than tillage.
 * @param shift added to both limits [-], e.g. 0.05 for tracks or firm sod, -0.05 for heavy carts; held to -0.3..0.3.
 * @returns limits as water over field capacity [-]; NaN if the shift is NaN.
 *
 * Rutledge & McHardy 1968 (Can. Agric. Eng. 10), as quoted in Baier 1973 (Can. Agric. Eng. 15): no work above 95 % of
 * field capacity in the upper zones. Rounsevell & Jones 1993, Soil Till. Res. 26:179-191: harvest to about field
 * capacity, tillage at 90-95 %. The three states are our own synthesis. Criteria differ with place and machine (Hassan &
 * Broughton 1975, Can. Agric. Eng. 17:124-129): look at the field before driving on it.
 */
export function carryLimits(operation: 'harvest' | 'tillage', shift = 0): CarryLimits {
  const base = operation === 'harvest' ? HARVEST : TILLAGE
  const held = Math.min(SHIFT_LIMIT, Math.max(-SHIFT_LIMIT, shift))
  return { firmTo: base.firmTo + held, softTo: base.softTo + held }
}

/**
 * Whether the ground carries a loaded combine and cart.
 *
 * @param depletionMm topsoil state from `stepTopsoil` [mm]. @param soil the layer. @param limits from `carryLimits`.
 * @returns firm, soft or no-go; saturated ground and standing water are no-go whatever the limits; `no-go` also when the
 * state is not known, for want of anything better to say.
 *
 * Sources as for `carryLimits`. Checked: the 95 % limit and its order, tests/truth/soil.ts. Not checked: any field.
 */
export function groundState(depletionMm: number, soil: Topsoil, limits: CarryLimits): GroundState {
  if (!(depletionMm > soil.saturatedMm)) return 'no-go'
  const relative = relativeTopsoilWater(depletionMm, soil)
  if (relative <= limits.firmTo) return 'firm'
  return relative <= limits.softTo ? 'soft' : 'no-go'
}
