/** A rectangle of columns and rows cut out of a frame. */
import { assertNever } from '../../result/index.ts';
import type { GridFrame } from './frame.ts';

/** Columns and rows to keep; columns may pass the last one of a frame that goes all the way round. */
export interface FramePart {
  readonly columnIndex: number;
  readonly rowIndex: number;
  readonly columnCount: number;
  readonly rowCount: number;
}

/** The frame of a part: its column 0 and row 0 are the part's first ones. */
export function partOfFrame(frame: GridFrame, part: FramePart): GridFrame {
  const { columnIndex, rowIndex, columnCount, rowCount } = part;
  const shape = { rowCount, columnCount, wrapsInLon: frame.wrapsInLon && columnCount === frame.columnCount };
  switch (frame.kind) {
    case 'latlon':
    case 'rotated': {
      const lat = frame.southWest.lat + rowIndex * frame.latStepDeg;
      return { ...frame, southWest: { lat, lon: frame.southWest.lon + columnIndex * frame.lonStepDeg }, ...shape };
    }
    case 'gaussian': {
      const westLonDeg = frame.westLonDeg + columnIndex * frame.lonStepDeg;
      return { ...frame, westLonDeg, rowLats: frame.rowLats.slice(rowIndex, rowIndex + rowCount), ...shape };
    }
    case 'mercator': {
      const westLonDeg = frame.westLonDeg + columnIndex * frame.lonStepDeg;
      return { ...frame, westLonDeg, southRad: frame.southRad + rowIndex * frame.rowStepRad, ...shape };
    }
    case 'conic': {
      const xM = frame.southWest.xM + columnIndex * frame.columnStepM;
      const yM = frame.southWest.yM + rowIndex * frame.rowStepM;
      return { ...frame, southWest: { xM, yM }, ...shape };
    }
    default:
      return assertNever(frame);
  }
}
