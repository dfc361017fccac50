/** All of standard input as text. */
export async function readStandardInput(): Promise<string> {
  process.stdin.setEncoding('utf8');
  let text = '';
  for await (const part of process.stdin) text += String(part);
  return text;
}
