/** The fields that a condition of a hold point looks at by name. */
export function fieldsAsked(condition: {
  readonly kind: string;
  readonly field?: string | undefined;
  readonly fields?: Readonly<Record<string, string>> | undefined;
}): string[] {
  return condition.field === undefined ? Object.values(condition.fields ?? {}) : [condition.field];
}
