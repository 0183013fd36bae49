declare module 'gltf-validator' {
  export interface Report {
    readonly issues: { readonly numErrors: number; readonly numWarnings: number; readonly numInfos: number };
    readonly info: { readonly drawCallCount: number; readonly totalTriangleCount: number };
  }
  export const validateBytes: (file: Uint8Array) => Promise<Report>;
}
