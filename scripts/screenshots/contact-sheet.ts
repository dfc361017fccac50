/** Pictures of one page. */
export interface PictureOf {
  readonly path: string;
  /** Names of files beside the sheet. */
  readonly files: readonly string[];
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** One HTML page with all pictures, small, each leading to itself. */
export function contactSheet(pictures: readonly PictureOf[]): string {
  const figures = pictures.map(({ path, files }) => {
    const shown = files.map(
      (file) =>
        `<a href="${escaped(file)}"><figure><img src="${escaped(file)}" alt="${escaped(file)}" loading="lazy"><figcaption>${escaped(file)}</figcaption></figure></a>`,
    );
    return `<h2>${escaped(path)}</h2>\n<div>${shown.join('\n')}</div>`;
  });
  return `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Every page</title>
<style>body{font:14px sans-serif}div{display:flex;gap:12px;align-items:start;overflow-x:auto}figure{margin:0}img{width:240px;max-height:480px;object-fit:cover;object-position:top;border:1px solid #999}</style>
<h1>Every page</h1>
${figures.join('\n')}
</html>
`;
}
