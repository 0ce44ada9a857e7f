/** How MET Norway is credited: by name, with the licence, and with a word that the data were changed. */
export const MET_CREDIT = {
  name: 'MET Norway',
  attribution: 'Data from MET Norway (api.met.no), changed: brought to hours, sunlight estimated',
  licence: 'NLOD 2.0 and CC BY 4.0, https://api.met.no/doc/License',
} as const
