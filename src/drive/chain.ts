/**
 * Room `drive`: chains and shims. Chain length and centre distance, slack and its loss by heat, wear, and which shims
 * of those at hand to stack. Heat figures are advisory; the bike's own book wins over all of them.
 */
export {};
