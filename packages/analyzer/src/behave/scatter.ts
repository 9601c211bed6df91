/**
 * A whole number as 32 bits that look like chance, so that sums of them seldom meet: the last step of MurmurHash3, from
 * memory. What has the same sum is still compared.
 */
export function scattered(n: number): number {
  let x = Math.imul(n ^ (n >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}
