// The rooms and what may enter each, written as absences (see DEVELOPERS.md, "Architecture").
const core =
  '^(grammar|server/(model|trade|shape|blank|fold|bead|brake|fitup|stock|rules|sheets|measure|files|findings|lines|templates|project))(/|\\.ts$)';
const capability = ['blank', 'fold', 'bead', 'brake', 'fitup', 'stock'];
module.exports = {
  forbidden: [
    { name: 'no-rings', severity: 'error', from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } } },
    { name: 'nothing-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: '^vscode$' } },
    {
      name: 'grammar-imports-chevrotain-only',
      severity: 'error',
      from: { path: '^grammar' },
      to: { pathNot: '^grammar|node_modules/(chevrotain|@chevrotain)' },
    },
    { name: 'core-reads-no-files-and-knows-no-editor', severity: 'error', from: { path: core }, to: { dependencyTypes: ['core'] } },
    { name: 'core-knows-no-editor', severity: 'error', from: { path: core }, to: { path: '(^|node_modules/)vscode' } },
    {
      name: 'model-knows-no-capability',
      severity: 'error',
      from: { path: '^server/model' },
      to: { path: '^server/(blank|fold|bead|brake|fitup|stock|rules|sheets|lsp|cli|project)' },
    },
    { name: 'trade-is-formulas', severity: 'error', from: { path: '^server/trade' }, to: { pathNot: '^server/trade' } },
    { name: 'shape-is-geometry', severity: 'error', from: { path: '^server/shape' }, to: { pathNot: '^server/shape|node_modules' } },
    ...capability.map((room) => ({
      name: `${room}-keeps-to-itself`,
      severity: 'error',
      from: { path: `^server/${room}/` },
      to: { path: '^server/(rules|sheets|lsp|cli|project)' },
    })),
    ...capability.map((room) => ({
      name: `${room}-sees-others-by-their-face`,
      severity: 'error',
      from: { path: `^server/${room}/` },
      to: { path: `^server/(${capability.filter((other) => other !== room).join('|')})/`, pathNot: '/(index|types)\\.ts$' },
    })),
    {
      name: 'capabilities-from-outside-by-their-face',
      severity: 'error',
      from: { pathNot: `^server/(${capability.join('|')})/|^tests` },
      to: { path: `^server/(${capability.join('|')})/`, pathNot: '/(index|types)\\.ts$' },
    },
    {
      name: 'rules-and-sheets-know-no-front',
      severity: 'error',
      from: { path: '^server/(rules|sheets|measure)' },
      to: { path: '^server/(lsp|cli|project)' },
    },
    {
      name: 'only-lsp-knows-the-protocol',
      severity: 'error',
      from: { path: '^(grammar|server)', pathNot: '^server/lsp' },
      to: { path: 'node_modules/vscode-languageserver' },
    },
    { name: 'lsp-and-cli-are-apart', severity: 'error', from: { path: '^server/lsp' }, to: { path: '^server/cli' } },
    {
      name: 'client-asks-the-server',
      severity: 'error',
      from: { path: '^client', pathNot: '^client/preview/folded/' },
      to: { path: '^(server|grammar)', pathNot: '^server/lsp/protocol\\.ts$' },
    },
    {
      // The slider moves the part without asking: by the very hinges that the fold itself uses.
      name: 'the-view-in-space-knows-geometry-only',
      severity: 'error',
      from: { path: '^client/preview/folded/' },
      to: { path: '^(server|grammar)', pathNot: '^server/(lsp/protocol|shape/(hinges|space)|fold/types)\\.ts$' },
    },
    {
      // A script of its own, fetched when first wanted: the flat picture never waits for it.
      name: 'space-is-fetched-when-wanted',
      severity: 'error',
      from: { path: '^client', pathNot: '^client/preview/folded/' },
      to: { path: '^client/preview/folded/|node_modules/three/', dependencyTypesNot: ['type-only'] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['node', 'import', 'require', 'types', 'default'] },
    exclude: { path: '^(dist|out|tests)' },
  },
};
