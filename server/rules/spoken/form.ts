/** The form of a rule that another room speaks: the text for the manual, without a check. */
import type { Severity } from '../../model/finding.js';
import type { Rule } from '../rule.js';

interface Words {
  readonly what: string;
  readonly why: string;
  readonly example: string;
  readonly cure: string;
  /** Left out where the rule is one of the language itself. */
  readonly source?: string;
}

export const spoken = (name: string, severity: Severity, words: Words): Rule => ({ name, severity, source: 'The language.', ...words });
