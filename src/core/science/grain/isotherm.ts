/**
 * The four forms in which equilibrium moisture of plant material is published (ASABE D245.6, Moisture Relationships
 * of Plant-based Agricultural Products; form from memory, each confirmed by reproducing a published table, see
 * `equilibrium.ts`). Moisture is % dry basis, temperature deg C, relative humidity 0-1.
 */
export interface Isotherm {
  readonly form: 'henderson' | 'chung-pfost' | 'halsey' | 'oswin'
  readonly a: number
  readonly b: number
  readonly c: number
}

/**
 * Moisture that the material would reach in air that stays as it is.
 *
 * @param isotherm form and constants; `a`, `b`, `c` as in the standard (Henderson: a = K, b = N, c = C).
 * @param tempC temperature of material and air [deg C], with tempC + c > 0 in the Henderson and Chung-Pfost forms.
 * @param relHumidity relative humidity [0-1]; outside gives NaN.
 * @returns equilibrium moisture [% dry basis], never below 0 (Chung-Pfost would go below it in very dry air).
 *
 * At relative humidity 1 every form is infinite: the caller caps it. NaN in, NaN out.
 * Checked: tests/core/science/grain/isotherm.test.ts (tests/truth/equilibrium.ts), largest difference 0.05 points wb.
 */
export function isothermMoistureDb(isotherm: Isotherm, tempC: number, relHumidity: number): number {
  if (!(relHumidity >= 0 && relHumidity <= 1)) return Number.NaN
  const { form, a, b, c } = isotherm
  switch (form) {
    case 'henderson':
      return (-Math.log(1 - relHumidity) / (a * (tempC + c))) ** (1 / b)
    case 'chung-pfost':
      return Math.max(0, -Math.log((-(tempC + c) * Math.log(relHumidity)) / a) / b)
    case 'halsey':
      return (Math.exp(a + b * tempC) / -Math.log(relHumidity)) ** (1 / c)
    case 'oswin':
      return (a + b * tempC) * (relHumidity / (1 - relHumidity)) ** (1 / c)
  }
}

/**
 * Relative humidity of the air that is in equilibrium with the material.
 *
 * @param isotherm form and constants, as in `isothermMoistureDb`.
 * @param tempC temperature of material and air [deg C], with tempC + c > 0 in the Henderson and Chung-Pfost forms.
 * @param moistureDb moisture [% dry basis], 0 and above; below 0 gives NaN.
 * @returns equilibrium relative humidity [0-1].
 *
 * The exact inverse of `isothermMoistureDb` wherever that is not held at 0. NaN in, NaN out.
 * Checked: round trip in tests/core/science/grain/isotherm.test.ts.
 */
export function isothermRelHumidity(isotherm: Isotherm, tempC: number, moistureDb: number): number {
  if (!(moistureDb >= 0)) return Number.NaN
  const { form, a, b, c } = isotherm
  switch (form) {
    case 'henderson':
      return 1 - Math.exp(-a * (tempC + c) * moistureDb ** b)
    case 'chung-pfost':
      return Math.exp((-a / (tempC + c)) * Math.exp(-b * moistureDb))
    case 'halsey':
      return Math.exp(-Math.exp(a + b * tempC) * moistureDb ** -c)
    case 'oswin':
      return 1 / (((a + b * tempC) / moistureDb) ** c + 1)
  }
}
