/** Hands a file to the browser's downloads; where it goes from there the page is not told. */
export function handOver(name: string, content: BlobPart, type = "application/json"): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser still reads from it after the click.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
