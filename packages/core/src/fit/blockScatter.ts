import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { daysOf } from "./days.ts";
import { type FitSetting, RoundProblem } from "./roundProblem.ts";
import type { RowEvidence } from "./rowEvidence.ts";
import type { Settled } from "./settle.ts";

/** Legs of a block: the two sides of a tack stay together. */
const LEGS = 2;

/** Fewer blocks than this do not show how they scatter. */
const LEAST_BLOCKS = 6;

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

/** M^power of a symmetric matrix, its eigenvalues passed through a function. */
function symmetric(matrix: Matrix, of: (eigenvalue: number) => number): Matrix {
  const { eigenvectorMatrix: vectors, realEigenvalues } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  return vectors.mmul(Matrix.diag(realEigenvalues.map(of))).mmul(vectors.transpose());
}

/** Residuals and slopes of the fit where it came to rest, whitened, parameters over their priors' sds. */
function linearised(settled: Settled, setting: FitSetting) {
  const { vector, states, series, scalars } = settled;
  const problem = new RoundProblem(setting, vector, states, series, scalars);
  const at = Float64Array.from(setting.free, (index) => vector[index]!);
  const residuals = new Float64Array(problem.count);
  const slopes = new Float64Array(problem.count * at.length);
  problem.residuals(at, residuals);
  problem.jacobian(at, slopes);
  const table = Matrix.from1DArray(problem.count, at.length, slopes);
  return { residuals, slopes: table.mulRowVector([...problem.scale]) };
}

/**
 * M180. The scatter of blocks of legs about the fit: what a bootstrap that draws blocks would find, by one step from where the fit came to rest.
 *
 * With the scores tᵦ = Jᵦᵀ (1 − Hᵦ)^(−½) uᵦ of the blocks, in coordinates in which the posterior covariance is 1, the covariance that they show is
 * Σ tᵦ tᵦᵀ + what symmetry and priors say.
 *
 * @returns undefined where there are fewer than six blocks. Never throws.
 * @see A. C. Cameron, D. L. Miller, 2015: A Practitioner's Guide to Cluster-Robust Inference, Journal of Human Resources 50, 317–372
 */
export function blockScatter(settled: Settled, setting: FitSetting): BlockScatter | undefined {
  const blockOf = blocksOf(setting.evidence);
  const blocks = (blockOf.at(-1) ?? -1) + 1;
  if (blocks < LEAST_BLOCKS) return undefined;
  const { residuals, slopes } = linearised(settled, setting);
  const root = symmetric(slopes.transpose().mmul(slopes), (eigenvalue) => 1 / Math.sqrt(eigenvalue));
  const standardised = slopes.mmul(root);
  const free = setting.free.length;
  const rowsInAll = settled.series.length * blockOf.length;
  const informations = Array.from({ length: blocks + 1 }, () => new Matrix(free, free));
  const scores = Array.from({ length: blocks }, () => new Matrix(free, 1));
  for (let at = 0; at < standardised.rows; at++) {
    const block = at < rowsInAll ? blockOf[at % blockOf.length]! : blocks;
    const slope = standardised.getRowVector(at);
    informations[block]!.add(slope.transpose().mmul(slope));
    scores[block]?.add(slope.transpose().mul(residuals[at]!));
  }
  const shown = informations[blocks]!;
  scores.forEach((score, block) => {
    const spared = symmetric(
      informations[block]!,
      (taken) => 1 / Math.sqrt(Math.max(LEAST_SPARE, 1 - taken)),
    );
    const freed = spared.mmul(score);
    shown.add(freed.mmul(freed.transpose()));
  });
  const ratios = Float64Array.from({ length: free }, (_, place) => {
    const row = root.getRowVector(place);
    return row.mmul(shown).mmul(row.transpose()).get(0, 0) / row.mmul(row.transpose()).get(0, 0);
  });
  return { blocks, ratios };
}
