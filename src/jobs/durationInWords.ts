/** A duration of a job, e.g. `2 h 05 min`. */
export function durationInWords(milliseconds: number): string {
  const minutes = Math.round(milliseconds / 60_000);
  const whole = Math.floor(minutes / 60);
  return whole === 0 ? `${minutes} min` : `${whole} h ${String(minutes % 60).padStart(2, "0")} min`;
}
