/** Why a cover must not go on. `about` names what to look up. */
export interface Reason {
  readonly code:
    | 'reading/missing'
    | 'verdict/out'
    | 'verdict/cannot-tell'
    | 'torque/not-logged'
    | 'torque/other-condition'
    | 'torque/other-torque'
    | 'torque/to-be-taken-again'
    | 'torque/undone'
    | 'torque/refused'
    | 'ledger/conflict'
    | 'ledger/id-reused'
    | 'opening/count'
    | 'part/astray'
    | 'cleaning/not-proven'
    | 'joint/open';
  readonly about: string;
  readonly message: string;
}
