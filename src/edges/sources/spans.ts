/**
 * From a supplier's spans of time to whole hours. Three kinds of quantity, three rules; what no span covers stays
 * unknown.
 */
export interface Span {
  readonly fromEpochH: number
  readonly toEpochH: number
  /** `NaN` = the supplier says that it does not know. */
  readonly value: number
}

export interface Grid {
  readonly startEpochH: number
  readonly hours: number
}

/** Stamps are whole seconds: an hour that is covered but for a few of them counts as covered. */
const WHOLE = 0.99
const HALF = 0.5

/** A state such as temperature, valid throughout its span: repeated, and averaged where spans meet inside an hour. */
export function meansOf(spans: readonly Span[], grid: Grid): Float32Array {
  const covered = new Float64Array(grid.hours)
  const total = new Float64Array(grid.hours)
  eachOverlap(spans, grid, ({ value }, hour, overlap) => {
    if (Number.isNaN(value)) return
    covered[hour]! += overlap
    total[hour]! += value * overlap
  })
  return Float32Array.from(total, (sum, hour) => (covered[hour]! >= HALF ? sum / covered[hour]! : Number.NaN))
}

/** A sum such as rain: spread evenly over its span, so that the hours add up to it. */
export function sharesOf(spans: readonly Span[], grid: Grid): Float32Array {
  const covered = new Float64Array(grid.hours)
  const total = new Float64Array(grid.hours)
  eachOverlap(spans, grid, ({ fromEpochH, toEpochH, value }, hour, overlap) => {
    covered[hour]! += overlap
    total[hour]! += (value / (toEpochH - fromEpochH)) * overlap
  })
  return Float32Array.from(total, (sum, hour) => (covered[hour]! >= WHOLE ? sum : Number.NaN))
}

/** A quantity that must not be averaged, such as a direction or a chance: that of the span with most of the hour. */
export function mostOf(spans: readonly Span[], grid: Grid): Float32Array {
  const most = new Float64Array(grid.hours)
  const values = new Float32Array(grid.hours).fill(Number.NaN)
  eachOverlap(spans, grid, ({ value }, hour, overlap) => {
    if (overlap < HALF || overlap <= most[hour]!) return
    most[hour] = overlap
    values[hour] = value
  })
  return values
}

function eachOverlap(
  spans: readonly Span[],
  { startEpochH, hours }: Grid,
  visit: (span: Span, hour: number, overlap: number) => void,
): void {
  for (const span of spans) {
    const first = Math.max(0, Math.floor(span.fromEpochH - startEpochH))
    const end = Math.min(hours, Math.ceil(span.toEpochH - startEpochH))
    for (let hour = first; hour < end; hour++) {
      const fromEpochH = Math.max(span.fromEpochH, startEpochH + hour)
      const overlap = Math.min(span.toEpochH, startEpochH + hour + 1) - fromEpochH
      if (overlap > 0) visit(span, hour, overlap)
    }
  }
}

/** Spans of one layer may overlap by this much [h]; then the later one takes over. */
const LARGEST_OVERLAP_H = 1 + 1 / 60

/** @returns the spans end to end where they overlap by up to an hour; nothing if they are out of order beyond that. */
export function inOrder(spans: readonly Span[]): readonly Span[] | undefined {
  const ordered: Span[] = []
  for (const span of spans) {
    const last = ordered.at(-1)
    if (last !== undefined && span.fromEpochH < last.toEpochH) {
      if (span.fromEpochH < last.fromEpochH || last.toEpochH - span.fromEpochH > LARGEST_OVERLAP_H) return undefined
      ordered.pop()
      if (span.fromEpochH > last.fromEpochH) ordered.push({ ...last, toEpochH: span.fromEpochH })
    }
    ordered.push(span)
  }
  return ordered
}
