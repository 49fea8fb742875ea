/**
 * Lint rule: a sentence for a reader stands in the catalogue (src/words) and nowhere else. Errors speak to the operator
 * and may stay English, and so may what describes a field of a file that the operator writes.
 */

/** Two words one after another make a phrase, unless an equals sign or a hyphen makes the second a key; a capital first, a sentence of one. */
const PHRASE = /\p{L}{2,},? \p{L}{2,}(?![-=\p{L}])/u;
const SAID = /^\p{Lu}\p{Ll}{2,}[.!?]?$/u;
/** Attributes that are read out or shown. */
const SHOWN = /\b(?:aria-label|alt|placeholder|title)="([^"<]*)/g;
/** The program's own name is the same in every language. */
const NAME = /Thawline/g;
/** What is typed or read by programs. */
const CODE = /<(code|pre|script)\b[^>]*>[\s\S]*?<\/\1>/g;
/** Stands for a value within a template. */
const HOLE = '\u0000';

/** What a piece of markup shows of its own. */
function shownOf(markup) {
  const plain = markup.replaceAll(CODE, '').replaceAll(/&\w+;/g, ' ').replaceAll(NAME, '');
  const labels = [...plain.matchAll(SHOWN)].map(([, label]) => label);
  return [plain.replaceAll(/<[^>]*>?/g, HOLE), ...labels].join(HOLE);
}

const isErrorOf = ({ type, callee }) => type === 'NewExpression' && /Error$/.test(callee.name ?? '');
/** `schema.describe('...')`, `context.addIssue({ message: '...' })` and the message of a check speak to who writes a file. */
const isOfFile = ({ type, callee }) =>
  type === 'CallExpression' &&
  callee.type === 'MemberExpression' &&
  /^(describe|addIssue|regex|refine|min|max|meta|superRefine)$/.test(callee.property.name ?? '');

/** Whether something stands in an error, or in what is only read by who writes a file. */
function isForOperator(node) {
  for (let at = node; at; at = at.parent) if (isErrorOf(at) || isOfFile(at)) return true;
  return false;
}

/** Addresses of modules, types, and what something is compared with: nobody is told them. */
const isMark = ({ parent }) => /^(Import|Export|TSLiteralType|BinaryExpression|SwitchCase)/.test(parent.type);

export const noWords = {
  meta: {
    type: 'problem',
    messages: { said: 'Say "{{said}}" in src/words: a reader’s sentence stands in the catalogue.' },
  },
  create(context) {
    const report = (node, said) => context.report({ node, messageId: 'said', data: { said } });
    const check = (node, text) => {
      const [said] = PHRASE.exec(text) ?? SAID.exec(text) ?? [];
      if (said !== undefined && !isForOperator(node)) report(node, said);
    };
    return {
      Literal(node) {
        if (typeof node.value === 'string' && !isMark(node)) check(node, node.value.replaceAll(NAME, ''));
      },
      TemplateLiteral(node) {
        const whole = node.quasis.map(({ value }) => value.cooked ?? '').join(HOLE);
        const { parent } = node;
        if (parent.type !== 'TaggedTemplateExpression') return check(node, whole);
        const [said] = /\p{L}{2,}/u.exec(shownOf(whole)) ?? [];
        if (said !== undefined) report(node, said);
      },
    };
  },
};
