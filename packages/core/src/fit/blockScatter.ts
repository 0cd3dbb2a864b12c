import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { daysOf } from "./days.ts";
import type { FitSetting } from "./fitSetting.ts";
import { RoundProblem } from "./roundProblem.ts";
import type { RowEvidence } from "./rowEvidence.ts";
import { Said } from "./said.ts";
import type { Settled } from "./settle.ts";

/** Legs of a block: the two sides of a tack stay together. */
const LEGS = 2;

/** Fewer blocks than this do not show how they scatter. */
const LEAST_BLOCKS = 6;

/** A season of more rows is not judged: the table of its slopes would take more memory than all else. */
const MOST_ROWS = 20_000;

/** A block that the fit follows all but this share of the way says nothing of its own scatter. */
const LEAST_SPARE = 0.05;

/** How far blocks of legs scatter about a fit, against what the fit expects. */
export interface BlockScatter {
  readonly blocks: number;
  /** Variance of each free parameter as the blocks' scatter has it, over the posterior's; 1 is as expected. */
  readonly ratios: Float64Array;
}

/** Which block each row belongs to: two legs one after the other of one day. */
function blocksOf(evidence: readonly RowEvidence[]): readonly number[] {
  const rows = evidence.map(({ row }) => row);
  let block = -1;
  return daysOf(rows).flatMap(({ from, to }) => {
    let legs = 0;
    return rows.slice(from, to).map(({ leg }, at) => {
      const begins = at === 0 || rows[from + at - 1]!.leg !== leg;
      if (begins && legs++ % LEGS === 0) block += 1;
      return block;
    });
  });
}

/** A symmetric matrix with its eigenvalues passed through a function. */
function symmetric(matrix: Matrix, of: (eigenvalue: number) => number): Matrix {
  const { eigenvectorMatrix: vectors, realEigenvalues } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  return vectors.mmul(Matrix.diag(realEigenvalues.map(of))).mmul(vectors.transpose());
}

/** Adds up what residuals say, each for its block; whitened, as the fit has them where it came to rest. */
function saidByBlocks(
  { vector, states, series, scalars }: Settled,
  setting: FitSetting,
  blocks: number,
  blockOf: (residual: number) => number,
): readonly Said[] {
  const problem = new RoundProblem(setting, vector, states, series, scalars);
  const at = Float64Array.from(setting.free, (index) => vector[index]!);
  const free = at.length;
  const residuals = new Float64Array(problem.count);
  const slopes = new Float64Array(problem.count * free);
  problem.residuals(at, residuals);
  problem.jacobian(at, slopes);
  const said = Array.from({ length: blocks }, () => new Said(problem.scale));
  residuals.forEach((residual, at) => {
    said[blockOf(at)]!.add(slopes, at, residual);
  });
  return said;
}

/**
 * M180. The scatter of blocks of legs about the fit: what a bootstrap that draws blocks would find, by one step from where the fit came to rest.
 *
 * With the scores tᵦ = (1 − Iᵦ)^(−½) Jᵦᵀ uᵦ of the blocks and their informations Iᵦ = JᵦᵀJᵦ, in coordinates in which the posterior covariance is 1, the
 * covariance that they show is Σ tᵦ tᵦᵀ + what symmetry and priors say.
 *
 * @returns undefined where there are fewer than six blocks, or more than 20,000 rows. Never throws.
 * @see A. C. Cameron, D. L. Miller, 2015: A Practitioner's Guide to Cluster-Robust Inference, Journal of Human Resources 50, 317–372
 */
export function blockScatter(settled: Settled, setting: FitSetting): BlockScatter | undefined {
  if (setting.evidence.length > MOST_ROWS) return undefined;
  const ofRow = blocksOf(setting.evidence);
  const blocks = (ofRow.at(-1) ?? -1) + 1;
  if (blocks < LEAST_BLOCKS) return undefined;
  const [rows, inSeries] = [ofRow.length, settled.series.length * ofRow.length];
  // what symmetry and priors say comes last, in a place of its own
  const said = saidByBlocks(settled, setting, blocks + 1, (at) =>
    at < inSeries ? ofRow[at % rows]! : blocks,
  );
  const free = setting.free.length;
  const all = Matrix.zeros(free, free);
  for (const { information } of said) all.add(information);
  const root = symmetric(all, (eigenvalue) => 1 / Math.sqrt(eigenvalue));
  // one at a time: those of a season's thousand blocks together would take tens of megabytes
  const standardised = (block: number): Matrix => root.mmul(said[block]!.information).mmul(root);
  const shown = standardised(blocks);
  for (let block = 0; block < blocks; block++) {
    const freed = symmetric(standardised(block), (taken) => 1 / Math.sqrt(Math.max(LEAST_SPARE, 1 - taken)));
    const score = freed.mmul(root).mmul(said[block]!.score);
    shown.add(score.mmul(score.transpose()));
  }
  const ratios = Float64Array.from({ length: free }, (_, place) => {
    const row = root.getRowVector(place);
    return row.mmul(shown).mmul(row.transpose()).get(0, 0) / row.mmul(row.transpose()).get(0, 0);
  });
  return { blocks, ratios };
}
