/**
 * Writes a file that a person chose. One that is there already is replaced only once the new one is whole.
 *
 * @returns how many bytes it has
 */
export async function writeWhole(file: FileSystemFileHandle, text: string): Promise<number> {
  const blob = new Blob([text]);
  const stream = await file.createWritable();
  try {
    await stream.write(blob);
    await stream.close();
  } catch (error) {
    await stream.abort().catch(() => {});
    throw error;
  }
  const { size } = await file.getFile();
  if (size !== blob.size) throw new Error(`${size} of ${blob.size} bytes arrived`);
  return size;
}
