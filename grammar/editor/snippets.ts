/** Pieces of text to start from. Each one, with its own suggestions filled in, is a piece that compiles. */
// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are the editor’s own placeholders, filled in while typing.

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

const snippet = (prefix: string, description: string, ...body: readonly string[]): Snippet => ({ prefix, description, body });

/** Title to snippet, ready to be written as JSON. */
export const snippets = (): Readonly<Record<string, Snippet>> => ({
  'New part file': snippet(
    'part file',
    'A file that brings in the shop and describes one panel.',
    'with "${1:shop.planish}"',
    '',
    'units ${2|inch,millimetre|}',
    '',
    '/// ${3:What it is, and for what}',
    'panel ${4:gate} {',
    '  sheet ${5:crs_18}',
    '  outline rectangle ${6:30} by ${7:11} ${8|outside,inside,flat|}',
    '  $0',
    '}',
  ),
  Panel: snippet(
    'panel',
    'A panel with its four edges turned down.',
    'panel ${1:lid} {',
    '  sheet ${2:crs_18}',
    '  outline rectangle ${3:20} by ${4:14} ${5|outside,inside,flat|}',
    '  edge top, bottom { flange ${6:3/4} ${7|down,up|} }',
    '  edge left, right { flange ${6:3/4} ${7|down,up|} }',
    '  corner all open',
    '  $0',
    '}',
  ),
  'Drawn panel': snippet(
    'panel drawn',
    'A panel whose outline is drawn edge by edge.',
    'panel ${1:bracket} {',
    '  sheet ${2:crs_18}',
    '  outline ${3|outside,inside,flat|} {',
    '    from (0, 0)',
    '    right ${4:5} as ${5:base}',
    '    up ${6:3}',
    '    left ${4:5}',
    '    close',
    '  }',
    '  edge ${5:base} { flange ${7:3/4} ${8|down,up|} }',
    '  $0',
    '}',
  ),
  Channel: snippet(
    'section',
    'A channel formed on the brake.',
    'section ${1:rail} {',
    '  sheet ${2:crs_18}',
    '  length ${3:16}',
    '  leg ${4:3/4}',
    '  turn ${5|up,down|} 90',
    '  leg ${6:1 1/2}',
    '  turn ${5|up,down|} 90',
    '  leg ${4:3/4}',
    '  $0',
    '}',
  ),
  'Metal and sheet': snippet(
    'sheet',
    'A metal and a sheet of it.',
    'material ${1:mild_steel} {',
    '  gauge table ${2|steel,galvanised,stainless,brown and sharpe|}',
    '  density ${3:7850 kg/m3}',
    '  yield ${4:210 MPa}',
    '  tensile ${5:330 MPa}',
    '}',
    'sheet ${6:crs_18} { material ${1:mild_steel}  thickness ${7:18 ga}  size ${8:48 in} by ${9:96 in}  bend radius ${10:1/8 in} k ${11:0.42} }',
    '$0',
  ),
  Brake: snippet(
    'brake',
    'A leaf brake.',
    'brake ${1:bench_leaf} { leaf  length ${2:48 in}  capacity ${3:16 ga} of ${4:mild_steel}  least flange ${5:3/8 in}  greatest turn ${6:135} }',
    '$0',
  ),
  Roller: snippet(
    'roller',
    'A bead roller.',
    'roller ${1:hand_roller} { throat ${2:18 in}  thickest ${3:18 ga} of ${4:mild_steel}  arm ${5:2 1/2 in} }',
    '$0',
  ),
  Die: snippet(
    'die',
    'A pair of rolls.',
    'die ${1:half_round_3_8} { ${2|round,vee,flat,step,tipping|}  width ${3:3/8 in}  depth ${4:1/8 in} }',
    '$0',
  ),
  'Flange and return': snippet(
    'edge',
    'An edge with a flange and a return.',
    'edge ${1:top} {',
    '  flange ${2:3/4} ${3|down,up|}',
    '  flange ${4:3/8} ${3|down,up|}',
    '  $0',
    '}',
  ),
  'Flange with hem': snippet(
    'edge hem',
    'An edge with a flange and a hem.',
    'edge ${1:top} {',
    '  flange ${2:3/4} ${3|down,up|}',
    '  hem ${4:3/8} ${5|closed,open 1/16|}',
    '  $0',
    '}',
  ),
  'Row of holes': snippet(
    'hole row',
    'Holes in a row.',
    'hole ${1:1/4} along line from (${2:1}, ${3:1}) to (${4:8}, ${3:1}) count ${5:5}',
    '$0',
  ),
  'Grid of holes': snippet(
    'hole grid',
    'Holes in rows and columns.',
    'hole ${1:1/4} grid ${2:4} by ${3:3} every ${4:1} by ${5:1} from (${6:2}, ${7:2})',
    '$0',
  ),
  Check: snippet('check', 'Something that must hold.', 'check ${1:gate.blank.width} <= ${2:48} "${3:must come out of one sheet}"', '$0'),
});
