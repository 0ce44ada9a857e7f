/** Area taken off a part of a field in a shift of an outfit. Never changed once taken in; a correction is a new cut. */
export interface Cut {
  readonly id: string
  /** Key of the part that was cut (`FieldPart.key`). */
  readonly partKey: string
  /** Area taken [ha]; below 0 takes back an area that was entered by mistake. */
  readonly areaHa: number
  /** Nothing of the part stands any more, whatever the areas add up to. */
  readonly done?: boolean
  /** Grain taken, as weighed [t]; absent = not weighed. */
  readonly massT?: number
  /** Mean moisture of that grain [% wet basis]; absent = not measured. */
  readonly moistureWb?: number
  /** End of the cut, hours since the epoch, with fraction. */
  readonly atEpochH: number
  readonly outfitId: string
  /** Id of the person who entered it. */
  readonly who: string
}
