/** Heights of battens and reefs that cannot be. */
import type { Problem } from '../result/index.ts';
import { sailOutline } from './outline.ts';
import type { SailFile } from './sail-file.ts';
import { metresText } from './finding-text.ts';

/** Where a part of the file stands, by its path. */
export type At = (...path: readonly (string | number)[]) => string;

interface Heights {
  readonly key: 'leechHeightsM' | 'luffHeightsM';
  readonly part: 'battens' | 'reefs';
  readonly heightsM: readonly number[] | undefined;
  readonly ofCount: number;
  readonly edge: 'luff' | 'leech';
  readonly edgeM: number;
  readonly isRising: boolean;
}

export function heightProblems(sail: SailFile, at: At): readonly Problem[] {
  const outline = sailOutline(sail);
  const { battens, reefs } = sail;
  const all: readonly Heights[] = [
    {
      key: 'leechHeightsM',
      part: 'battens',
      heightsM: battens?.leechHeightsM,
      ofCount: battens?.count ?? 0,
      edge: 'leech',
      edgeM: outline.leechM,
      isRising: false,
    },
    {
      key: 'luffHeightsM',
      part: 'reefs',
      heightsM: reefs?.luffHeightsM,
      ofCount: reefs?.count ?? 0,
      edge: 'luff',
      edgeM: outline.luffM,
      isRising: true,
    },
  ];
  return all.flatMap((one) => {
    const wrong = wrongHeights(one, outline.scale === 'typical');
    return wrong === null
      ? []
      : [
          {
            code: 'sail.heights',
            where: at('sail', one.part, one.key),
            ...wrong,
            remedy: 'Correct the list, or leave it out.',
          },
        ];
  });
}

function wrongHeights(of: Heights, isTypical: boolean): Pick<Problem, 'what' | 'expected'> | null {
  const { heightsM, ofCount, edge, edgeM, isRising } = of;
  if (heightsM === undefined) return null;
  if (isTypical)
    return { what: `Heights need the ${edge} they are measured along.`, expected: 'luffM and footM of the sail' };
  if (heightsM.length !== ofCount)
    return { what: `It has ${heightsM.length} heights for ${ofCount}.`, expected: `${ofCount} heights` };
  const ordered = heightsM.every((heightM, index) => index === 0 || heightM > (heightsM[index - 1] ?? 0) === isRising);
  if (!ordered)
    return {
      what: `${heightsM.join(', ')} do not ${isRising ? 'rise' : 'fall'}.`,
      expected: isRising ? 'the lowest first' : 'the top one first',
    };
  const beyond = heightsM.find((heightM) => heightM >= edgeM);
  return beyond === undefined
    ? null
    : { what: `${beyond} m is beyond the ${edge}.`, expected: `less than ${metresText(edgeM)}` };
}
