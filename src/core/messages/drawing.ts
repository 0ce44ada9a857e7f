/** What drawings of ribbons share: colours, and numbers as SVG takes them. */

/** Light palette; the page's style sheet has one for the dark as well. */
export const RIBBON_COLOURS = {
  wet: '#56708c',
  fit: '#dcae3c',
  brittle: '#a8482c',
  unknown: '#d8d0c0',
  held: '#7d766a',
  ink: '#231f19',
  paper: '#fbf8f1',
} as const

export const round = (value: number): string => String(Math.round(value * 1000) / 1000)

export const percent = (share: number): string => `${Math.round(share * 10_000) / 100}%`

export function divisions(parts: number, height: number): string {
  return Array.from({ length: Math.max(0, parts - 1) }, (_, n) => {
    const x = percent((n + 1) / parts)
    return `<line class="division" x1="${x}" x2="${x}" y1="0" y2="${height}" stroke="${RIBBON_COLOURS.unknown}"/>`
  }).join('')
}
