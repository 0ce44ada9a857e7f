/** How NASA POWER asks to be credited (its referencing guide). */
export const POWER_CREDIT = {
  name: 'NASA POWER',
  attribution:
    'Weather of the past: NASA Langley Research Center POWER Project, funded through the NASA Earth Science/Applied ' +
    'Science Program (https://power.larc.nasa.gov/)',
  licence: 'open data of NASA',
} as const
