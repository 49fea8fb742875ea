/** What kind of evidence the program's statements have, counted from the rules themselves. */
import type { RuleBook } from '../config/index.ts';
import type { Grade } from '../vocabulary/index.ts';

/** Measured on this lake, on other waters, published, said by the trade, or chosen for this program. */
export const EVIDENCE_KINDS = ['here', 'elsewhere', 'published', 'practice', 'ours'] as const;
export type EvidenceKind = (typeof EVIDENCE_KINDS)[number];

const KIND_OF_GRADE: Readonly<Record<Grade, EvidenceKind>> = {
  measured: 'elsewhere',
  'published-direct': 'published',
  'published-indirect': 'published',
  mixed: 'published',
  'common-practice': 'practice',
};

type Counts = Readonly<Record<EvidenceKind, number>>;

function counted(kinds: readonly EvidenceKind[]): Counts {
  const of = (kind: EvidenceKind): number => kinds.filter((each) => each === kind).length;
  return {
    here: of('here'),
    elsewhere: of('elsewhere'),
    published: of('published'),
    practice: of('practice'),
    ours: of('ours'),
  };
}

/** Number of rules of each kind: for places, and for hazards. Published ones may have steps of our own, which their source says. */
export function kindsOfRules(rules: RuleBook): { readonly places: Counts; readonly hazards: Counts } {
  const { modifiers, places } = rules.positions;
  const grades = [
    ...modifiers.map(({ grade }) => grade),
    ...places.flatMap(({ base }) => Object.values(base).map(({ grade }) => grade)),
  ];
  return {
    places: counted(grades.map((grade) => KIND_OF_GRADE[grade])),
    hazards: counted(
      rules.safety.hazards.map(({ source }) => (/^ours\b/.test(source) ? 'ours' : 'published')),
    ),
  };
}
