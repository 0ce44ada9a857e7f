/** Outlines of fields as they come in, read and checked by whoever knows how outlines are drawn. */
import type { Field } from '#core/operation/farm.ts'

/** Polygons of GeoJSON (RFC 7946, 3.1.6 and 3.1.7). */
export type DrawnOutline =
  | { readonly type: 'Polygon'; readonly coordinates: readonly (readonly (readonly number[])[])[] }
  | { readonly type: 'MultiPolygon'; readonly coordinates: readonly (readonly (readonly (readonly number[])[])[])[] }

export type OutlineRead =
  | {
      readonly kind: 'sound'
      /** Closed, by the right-hand rule. */
      readonly boundary: NonNullable<Field['boundary']>
      readonly areaHa: number
      readonly centre: Field['centre']
    }
  | { readonly kind: 'faulty'; readonly faults: readonly { readonly path: string; readonly what: string }[] }

export type OutlineReader = (outline: DrawnOutline) => OutlineRead
