/** Bundles for Node into `folder`: the command `spyhole.js` and the thread `worker.js` it starts. */
export function bundleForNode(folder: string): Promise<unknown>;
