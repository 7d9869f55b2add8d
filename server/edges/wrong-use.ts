/** What is wrong with how the command was called: said, and status 2. */
export class WrongUse extends Error {}
