/** A run of rain with no more than three dry hours inside it. */
export interface RainSpell {
  /** Index of its first hour in the series. */
  readonly startH: number
  /** Rain hour by hour from there [mm]. */
  readonly rainMm: readonly number[]
}

const LONGEST_BREAK_H = 3

/** @param rainMm hourly rain of one member [mm]; unknown hours count as dry. */
export function findSpells(rainMm: Float32Array): RainSpell[] {
  const spells: RainSpell[] = []
  let startH = -1
  let lastWetH = -1
  const close = () => {
    if (startH >= 0) spells.push({ startH, rainMm: Array.from(rainMm.subarray(startH, lastWetH + 1), (mm) => mm || 0) })
    startH = -1
  }
  for (let h = 0; h < rainMm.length; h++) {
    if (!(rainMm[h]! > 0)) continue
    if (startH >= 0 && h - lastWetH > LONGEST_BREAK_H + 1) close()
    if (startH < 0) startH = h
    lastWetH = h
  }
  close()
  return spells
}
