/** @returns the PNG of an SVG, as base64. */
export type Painter = (svg: string) => string
