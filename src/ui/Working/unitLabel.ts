/** Units as print writes them; records and keys keep the plain letters. */
const labels: Readonly<Record<string, string>> = {
  degF: "°F",
  degC: "°C",
  deg: "°",
  in2: "in²",
  mm2: "mm²",
  "lb/ft3": "lb/ft³",
  "kg/m3": "kg/m³",
  "m3/d": "m³/d",
  "1000 Sm3/d": "1000 Sm³/d",
};

export function unitLabel(unit: string): string {
  return labels[unit] ?? unit;
}
