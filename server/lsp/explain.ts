import { entries } from '../../grammar/index.js';
import { rules } from '../rules/index.js';
import { entryDocumentation, fenced } from './documentation.js';
import type { ExplainResult } from './protocol.js';

/** The manual's page for a rule or for a word of the language, as Markdown. */
export const explain = (topic: string): ExplainResult => {
  const rule = rules.find((one) => one.name === topic);
  if (rule !== undefined) {
    const page = [
      `# ${rule.name}`,
      rule.what,
      `## Why it matters`,
      rule.why,
      `## Example`,
      fenced(rule.example.trim()),
      `## Put right`,
      fenced(rule.cure.trim()),
      `Source: ${rule.source}`,
    ];
    return { markdown: page.join('\n\n') };
  }
  const found = entries.filter((entry) => entry.word === topic || entry.id === topic);
  if (found.length === 0) return { markdown: undefined };
  const pages = found.map((entry) =>
    [`# ${entry.word}`, entryDocumentation(entry), `## Example`, fenced(entry.example.trim())].join('\n\n'),
  );
  return { markdown: pages.join('\n\n---\n\n') };
};
