/**
 * Middles for labels of equal height that stay as near as they can to what they name, in the same order, without
 * overlapping and inside [from, to].
 *
 * Overlapping labels join into a block about the mean of what they name (least squares), as long as there is room;
 * where there is not even room for all, they are packed from `from` on.
 *
 * @param wanted middles, in any order
 * @returns middles in the order of `wanted`
 */
export function spreadLabels(wanted: readonly number[], height: number, from: number, to: number): readonly number[] {
  const order = wanted
    .map((middle, index) => ({ middle, index }))
    .sort((a, b) => a.middle - b.middle || a.index - b.index);
  interface Block {
    sum: number;
    members: number[];
  }
  const low = from + height / 2;
  const place = (block: Block): number => {
    const size = block.members.length * height;
    const first = block.sum / block.members.length - (size - height) / 2;
    return Math.max(Math.min(first, to - size + height / 2), low);
  };
  const blocks: Block[] = [];
  for (const { middle, index } of order) {
    let block: Block = { sum: middle, members: [index] };
    for (
      let before = blocks.at(-1);
      before && place(before) + before.members.length * height > place(block);
      before = blocks.at(-1)
    ) {
      block = { sum: before.sum + block.sum, members: [...before.members, ...block.members] };
      blocks.pop();
    }
    blocks.push(block);
  }
  const middles: number[] = Array.from({ length: wanted.length }, () => 0);
  for (const block of blocks) {
    const first = place(block);
    for (const [i, index] of block.members.entries()) middles[index] = first + i * height;
  }
  return middles;
}
