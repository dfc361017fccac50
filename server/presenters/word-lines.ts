/** First letter small, for a name that stands inside a sentence. */
export const lowerFirst = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

/** First letter large, for a name that begins a line. */
export const upperFirst = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Words over at most `lineCount` lines of about `characters` each; what is left over ends in an ellipsis. */
export function wordLines(text: string, room: { characters: number; lineCount: number }): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').filter((part) => part !== '')) {
    const last = lines.at(-1);
    if (last !== undefined && `${last} ${word}`.length <= room.characters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  if (lines.length <= room.lineCount) return lines;
  return [...lines.slice(0, room.lineCount - 1), `${lines[room.lineCount - 1] ?? ''} …`];
}
