const STEPS = 20_000;

/**
 * Posterior probability (Jeffreys prior) that a proportion lies above a threshold, by plain numerical
 * integration: with share = sin²(angle) the posterior density is sin^(2·right) · cos^(2·wrong).
 */
export function probabilityAbove(right: number, total: number, threshold: number): number {
  const wrong = total - right;
  const peak = right === 0 ? 0 : right * Math.log(right / total);
  const scale = peak + (wrong === 0 ? 0 : wrong * Math.log(wrong / total));
  const cut = Math.asin(Math.sqrt(threshold));
  let above = 0;
  let all = 0;
  for (let step = 0; step < STEPS; step += 1) {
    const angle = ((step + 0.5) / STEPS) * (Math.PI / 2);
    const density = Math.exp(
      2 * right * Math.log(Math.sin(angle)) + 2 * wrong * Math.log(Math.cos(angle)) - scale,
    );
    all += density;
    if (angle > cut) above += density;
  }
  return above / all;
}
