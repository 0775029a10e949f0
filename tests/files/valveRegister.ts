import writeWorkbook from "write-excel-file/node";

/**
 * A register of valves as offices keep them: a sheet of words ahead of it, a title above the header, names merged over
 * two rows, days as days, and units that change from cell to cell. The serials are invented.
 */
export async function valveRegister(
  more: readonly (string | number | null)[][] = [],
): Promise<Uint8Array> {
  const date = (day: string) =>
    ({ value: new Date(`${day}T00:00:00Z`), type: Date, format: "dd/mm/yyyy" }) as const;
  const register = [
    ["Gas lift valve register"],
    [],
    [
      { value: "Serial No.", rowSpan: 2 },
      { value: "Valve", columnSpan: 3 },
      null,
      null,
      { value: "Test rack", columnSpan: 2 },
      null,
      { value: "Port (in)", rowSpan: 2 },
      { value: "Remarks", rowSpan: 2 },
    ],
    [null, "Type", "Size", "Latch", "Ptro psi", "Date tested", null, null],
    ["EM-IPO-4001", "IPO", '1"', "ring", 905, date("2026-02-03"), 0.1875, "rebuilt"],
    ["EM-IPO-4002", "ipo", 1, "ring", "62.5 barg", date("2026-02-03"), "3/16", null],
    ["EM-PPO-4003", "PPO", 1.5, "collet", 1010, date("2026-02-04"), "6.35 mm", null],
    [],
    ["EM-ORF-4004", "orifice", '1-1/2"', "collet", null, null, 0.25, null],
    ...more,
  ];
  const sheets = [
    { sheet: "Read me", data: [["Kept by the valve shop. Ask before changing."]] },
    { sheet: "Register", data: register },
  ];
  return new Uint8Array(await writeWorkbook(sheets as never).toBuffer());
}
