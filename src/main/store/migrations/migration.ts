/**
 * One step of the database's shape. Statements run one by one inside a single transaction that also sets
 * user_version. A migration that has been released is never edited: the next one puts things right.
 */
export interface Migration {
  readonly version: number;
  readonly name: string;
  readonly statements: readonly string[];
}
