/** Angles on the ground. */

/** @returns the angle in one turn from 0 on, such as 0 to below 360 or, for a line without direction, 180 [deg]. */
export const wrapDeg = (deg: number, turnDeg: number): number => ((deg % turnDeg) + turnDeg) % turnDeg

/** @returns least angle between two lines without direction [deg, 0-90]. */
export function angleBetweenLines(aDeg: number, bDeg: number): number {
  const between = wrapDeg(aDeg - bDeg, 180)
  return Math.min(between, 180 - between)
}
