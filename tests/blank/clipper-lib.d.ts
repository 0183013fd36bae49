/** The little of the older polygon library that the judge uses; it comes without types. */
declare module 'clipper-lib' {
  namespace ClipperLib {
    type Path = { X: number; Y: number }[];
    type Paths = Path[];
    enum PolyType {
      ptSubject,
      ptClip,
    }
    enum ClipType {
      ctDifference,
    }
    enum PolyFillType {
      pftNonZero,
    }
    class Clipper {
      static Area(path: Path): number;
      AddPaths(paths: Paths, type: PolyType, closed: boolean): boolean;
      Execute(type: ClipType, solution: Paths, subject: PolyFillType, clip: PolyFillType): boolean;
    }
  }
  export default ClipperLib;
}
