/** A small sound farm file for tests to spoil. Every value that a test replaces stands in it once. */
export const BASE = `farm: Test Farm
units: us
language: en
time_zone: America/Chicago
home: { lat: 40.0, lon: -88.1, elevation: 700 }
fields:
  - name: Alpha
    crop: soybean
    boundary:
      type: Polygon
      coordinates: [[[-88.13, 40.0], [-88.12, 40.0], [-88.12, 40.01], [-88.13, 40.01], [-88.13, 40.0]]]
    planted: 2010-05-02
    maturity_group: 2.7
    rows: 10
    soil: { texture: loam, drainage: tiled }
    usual_yield: 54
    band: { low: 10.5, high: 13.5 }
    patches:
      - { name: Swale, share: 0.1, kind: green, later: 7, handling: leave }
      - { name: Hole, share: 0.2, kind: wet-hole, later: 3, handling: blend }
    buyer: River House
    haul: 6
  - name: Beta
    crop: corn
    centre: { lat: 40.05, lon: -88.15 }
    area: 120
    planted: 2010-04-20
    relative_maturity: 111
    soil: { texture: silt, drainage: well }
    usual_yield: 180
    after_wheat: false
    buyer: hill-house
    haul: 7
outfits:
  - name: Outfit
    combines:
      - name: Red
        count: 2
        tank: 300
        unload: 3
        heads:
          - { crops: [soybean], width: 35, speed: 4, efficiency: 0.7 }
          - { crops: [corn], width: 20, speed: 4.5, efficiency: 0.75 }
    carts:
      - { name: Cart, size: 1000, unload: 8 }
    trucks:
      - { name: Semi, size: 950, speed: 38 }
    hours: { from: "08:00", to: "22:00" }
    days_off: [sunday]
buyers:
  - name: River House
    hours: { from: "07:00", to: "18:00" }
    closed: [saturday, sunday]
    daily_limit: 40000
    turnaround: 20
    pays:
      - { crop: soybean, price: 10, moisture: 13, shrink: 1.5, dock: 2, refuse_above: 18 }
  - name: Hill House
    id: hill-house
    hours: { from: "06:30", to: "17:00" }
    turnaround: 15
    pays:
      - { crop: corn, price: 4.5, moisture: 15, shrink: 1.4, drying: 0.04 }
people:
  - { name: Ann, role: owner, email: ann@example.org, quiet_hours: { from: "21:00", to: "05:00" } }
  - { name: Bo, role: crew, language: es }
fire:
  care: { gust: 25, wind: 20, humidity: 25, grass_index: 20 }
  stop: { grass_index: 35 }
  bans:
    - { from: 2010-09-20, to: 2010-09-22, text: County burn ban }
morning: { at: "05:15", weather_age_limit: 10 }
weather:
  - use: national-us
  - use: global
`

/** The base with one piece of it replaced; the piece must stand in it exactly once. */
export function spoiled(piece: string, by: string): string {
  const parts = BASE.split(piece)
  if (parts.length !== 2) throw new Error(`"${piece}" stands ${parts.length - 1} times in the base farm`)
  return parts.join(by)
}

/** Line number, from 1, of the first line that contains the text. */
export function lineOf(text: string, part: string): number {
  const index = text.split('\n').findIndex((line) => line.includes(part))
  if (index < 0) throw new Error(`"${part}" is not in the text`)
  return index + 1
}
