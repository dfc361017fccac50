/** Relative luminance and contrast of sRGB colours: WCAG 2.2, definitions of the same names. */

function luminance(hex: string): number {
  const digits = hex.length === 4 ? hex.slice(1).replaceAll(/./g, '$&$&').match(/../g) : hex.slice(1).match(/../g);
  const [red = 0, green = 0, blue = 0] = (digits ?? []).map((pair) => {
    const channel = Number.parseInt(pair, 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio, 1 … 21. */
export function contrastRatio(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

/** Colours of a style sheet's rule, by name without the dashes. */
export function tokensOf(css: string, selector: string): ReadonlyMap<string, string> {
  const body = css.split(`${selector} {`)[1]?.split('}')[0];
  if (body === undefined) throw new Error(`no rule ${selector}`);
  return new Map([...body.matchAll(/--([\w-]+): (#[0-9a-f]{3,6})/g)].map(([, name = '', hex = '']) => [name, hex]));
}
