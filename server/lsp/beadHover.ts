/** What there is to know of a bead, a tipped edge, a pressed hole or a load: what it takes, asks and gives. */
import type { Span } from '../../grammar/syntax.js';
import type { WorkedBead } from '../bead/types.js';
import { FORMING_MARGIN } from '../trade/forming.js';
import type { Ask } from './ask.js';
import { plain } from './documentation.js';
import { bendSumOf, counted, type PlacedPart, sayLength, sayLengthFully } from './say.js';

/** What a tipped edge, a cross-break or a pressed hole takes and asks of the metal. */
export const otherWorkSums = (ask: Ask, placed: PlacedPart, span: Span): readonly string[] => {
  const { beads } = placed.result;
  const here = (one: { readonly span: Span }): boolean => one.span.start + placed.start === span.start;
  const tips = (beads?.tips ?? [])
    .filter(here)
    .flatMap(({ edges }) =>
      edges.map(({ edge, work }) =>
        [
          `**${plain(edge)}**`,
          ...(work === undefined
            ? []
            : [
                `cut ${bendSumOf(ask, work.sums.added)} larger than the finished edge, inside radius ${sayLength(ask, work.inside)}`,
                ...(work.strain === undefined
                  ? []
                  : [`${work.strain.strain < 0 ? 'shrinks' : 'stretches'} by ${percent(Math.abs(work.strain.strain))} at its cut edge`]),
                ...work.notes.map(plain),
              ]),
        ].join('  \n'),
      ),
    );
  const breaks = (beads?.crossBreaks ?? []).filter(here).map(({ work }) => work.notes.map(plain).join('  \n'));
  const rims = (beads?.dimples ?? [])
    .filter(here)
    .slice(0, 1)
    .flatMap(({ work }) =>
      work === undefined
        ? ['how deep is not said, so the rim is as its dies leave it']
        : [
            [
              `pressed ${sayLength(ask, work.pressedDiameter)} wide inside, flat again at ${sayLength(ask, work.footDiameter)}; its rim stretches by ${percent(work.strain)}`,
              ...work.notes.map(plain),
            ].join('  \n'),
          ],
    );
  return [...tips, ...breaks, ...rims].filter((said) => said !== '');
};

/** How far the panel gives under this load, against flat and against one bead more or fewer, and where that stops holding. */
export const loadSums = (ask: Ask, placed: PlacedPart, span: Span): readonly string[] => {
  const { part, stiffness } = placed.result;
  if (part.kind !== 'panel' || stiffness === undefined) return [];
  if ('message' in stiffness) return [plain(stiffness.message)];
  const index = part.loads.findIndex((load) => load.span.start + placed.start === span.start);
  const found = stiffness.cases[index];
  if (found === undefined) return [];
  const mm = (length: number): string => sayLengthFully(ask, Math.abs(length));
  const note = (state: { readonly frequency: number | undefined }): string =>
    state.frequency === undefined ? '' : `, first note ${Number(state.frequency.toPrecision(3))} Hz`;
  const { flat, beaded, fewer, more } = found;
  const others = [fewer, more].flatMap((state) => state ?? []);
  return [
    [
      ...(beaded === undefined
        ? []
        : [`**gives ${mm(beaded.deflection)}**, ${Number(found.gain.toPrecision(3))} times less than flat${note(beaded)}`]),
      beaded === undefined ? `**gives ${mm(flat.deflection)}**${note(flat)}` : `flat ${mm(flat.deflection)}${note(flat)}`,
      ...others.map((state) => `with ${counted(state.count, 'bead')} ${mm(state.deflection)}${note(state)}`),
      ...[...found.limits, ...stiffness.limits].map((limit) => `${plain(limit)}.`),
    ].join('  \n'),
  ];
};

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;

type Forming = NonNullable<WorkedBead['forming']>;
/** What the strain is judged against. */
const bears = ({ formed: { strain } }: Forming): readonly string[] => {
  const limits = [
    ...(strain.limit === undefined ? [] : [`the sheet bears ${percent(strain.limit.working)}: ${plain(strain.limit.source)}`]),
    ...(strain.formingLimit === undefined
      ? []
      : [`forming limit ${percent(strain.formingLimit)} (Keeler and Brazier, from memory), less a margin of ${percent(FORMING_MARGIN)}`]),
  ];
  return limits.length === 0 ? ['how much stretch the metal bears is not known: write `elongation` in its `material`'] : limits;
};
/** What each of several passes adds, were nothing drawn in. */
const passStrains = ({ formed: { byPass } }: Forming): string =>
  byPass === undefined || byPass.length < 2
    ? ''
    : `; each stretches it further by ${byPass.map(percent).join(', then ')} were none drawn in`;

/** What a bead comes to; copies that differ in reach are told by the one that asks most. */
export const beadSums = (ask: Ask, copies: readonly WorkedBead[]): string => {
  const margin = (bead: WorkedBead): number =>
    bead.reaches[0] === undefined ? -Infinity : bead.reaches[0].needed - bead.reaches[0].throat;
  const bead = [...copies].sort((a, b) => margin(b) - margin(a))[0] as WorkedBead;
  const { forming, takeIn } = bead;
  const reach = bead.reaches[0];
  const twice = bead.kind === 'band' ? 2 : 1;
  const sum = (mm: number): string => bendSumOf(ask, mm * twice);
  return [
    `**${bead.kind} ${plain(copies.length === 1 ? bead.id : `${copies[0]?.id} … ${copies.at(-1)?.id}`)}**, ${bead.direction}, ${sayLengthFully(ask, bead.length)} long${copies.length === 1 ? '' : ' each'}`,
    `takes in ${sum(takeIn.used)}, between ${sum(0)} (all stretched) and ${sum(takeIn.full)} (none stretched)`,
    ...(forming === undefined
      ? []
      : [
          `${sayLength(ask, forming.developed)} of sheet over ${sayLength(ask, forming.width)}: stretches ${percent(forming.strain)} on the average, ${percent(forming.strainFull)} were none drawn in, ${percent(forming.peak)} at its tightest radius`,
          ...bears(forming),
          `share drawn in ${percent(forming.share)}: ${plain(forming.shareFrom)}`,
          `${counted(forming.passes.length, 'pass').replace('passs', 'passes')}, set to ${forming.passes.map((depth) => sayLength(ask, depth)).join(', then ')}${passStrains(forming)}`,
        ]),
    ...(reach === undefined
      ? []
      : [
          `reach ${sayLengthFully(ask, reach.needed)} of ${sayLength(ask, reach.throat)} on ${plain(reach.roller.name)}${reach.fits ? '' : ': out of reach'}${
            reach.beforeRolling === undefined ? '' : `; ${sayLength(ask, reach.beforeRolling.needed)} on the sheet as cut, rolled first`
          }`,
        ]),
  ].join('  \n');
};
