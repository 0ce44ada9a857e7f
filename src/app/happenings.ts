/** What whoever is looking wants to hear of at once. */

import type { DayMade } from './morning.ts'
import type { KeptParcel } from './outbox-port.ts'

export type Happening =
  | { readonly kind: 'day-made'; readonly made: DayMade }
  | { readonly kind: 'message'; readonly parcel: KeptParcel; readonly state: 'sent' | 'waiting' | 'dead' | 'lapsed' }
  /** Something was told: a reading, a cut, what was seen, a field drawn anew. */
  | { readonly kind: 'told' }

export type Hear = (happening: Happening) => void
