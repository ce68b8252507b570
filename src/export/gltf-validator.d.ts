/** The part of Khronos's validator that the tests use; the package brings no types. */
declare module "gltf-validator" {
  export function validateBytes(
    bytes: Uint8Array,
    options?: { readonly maxIssues?: number },
  ): Promise<{
    readonly mimeType: string;
    readonly issues: { readonly numErrors: number; readonly numWarnings: number; readonly messages: readonly object[] };
    readonly info: { readonly totalTriangleCount: number };
  }>;
}
