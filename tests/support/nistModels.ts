/** The models of NIST's nonlinear regression problems, written from the formulas in the .dat files. */
export type Model = (b: Float64Array, x: readonly number[]) => number;

const { exp, cos, sin, atan, PI } = Math;
const v = (b: Float64Array, number: number): number => b[number - 1]!;

const gauss: Model = (b, [x = Number.NaN]) =>
  v(b, 1) * exp(-v(b, 2) * x) +
  v(b, 3) * exp(-((x - v(b, 4)) ** 2) / v(b, 5) ** 2) +
  v(b, 6) * exp(-((x - v(b, 7)) ** 2) / v(b, 8) ** 2);

const lanczos: Model = (b, [x = Number.NaN]) =>
  v(b, 1) * exp(-v(b, 2) * x) + v(b, 3) * exp(-v(b, 4) * x) + v(b, 5) * exp(-v(b, 6) * x);

const chwirut: Model = (b, [x = Number.NaN]) => exp(-v(b, 1) * x) / (v(b, 2) + v(b, 3) * x);

const growth: Model = (b, [x = Number.NaN]) => v(b, 1) * (1 - exp(-v(b, 2) * x));

const cubicOverCubic: Model = (b, [x = Number.NaN]) =>
  (v(b, 1) + v(b, 2) * x + v(b, 3) * x ** 2 + v(b, 4) * x ** 3) /
  (1 + v(b, 5) * x + v(b, 6) * x ** 2 + v(b, 7) * x ** 3);

const waves = (cosine: number, sine: number, x: number, period: number): number =>
  cosine * cos((2 * PI * x) / period) + sine * sin((2 * PI * x) / period);

export const NIST_MODELS: Readonly<Record<string, Model>> = {
  Bennett5: (b, [x = Number.NaN]) => v(b, 1) * (v(b, 2) + x) ** (-1 / v(b, 3)),
  BoxBOD: growth,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  DanWood: (b, [x = Number.NaN]) => v(b, 1) * x ** v(b, 2),
  ENSO: (b, [x = Number.NaN]) =>
    v(b, 1) +
    waves(v(b, 2), v(b, 3), x, 12) +
    waves(v(b, 5), v(b, 6), x, v(b, 4)) +
    waves(v(b, 8), v(b, 9), x, v(b, 7)),
  Eckerle4: (b, [x = Number.NaN]) => (v(b, 1) / v(b, 2)) * exp(-0.5 * ((x - v(b, 3)) / v(b, 2)) ** 2),
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Hahn1: cubicOverCubic,
  Kirby2: (b, [x = Number.NaN]) =>
    (v(b, 1) + v(b, 2) * x + v(b, 3) * x ** 2) / (1 + v(b, 4) * x + v(b, 5) * x ** 2),
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  MGH09: (b, [x = Number.NaN]) => (v(b, 1) * (x ** 2 + x * v(b, 2))) / (x ** 2 + x * v(b, 3) + v(b, 4)),
  MGH10: (b, [x = Number.NaN]) => v(b, 1) * exp(v(b, 2) / (x + v(b, 3))),
  MGH17: (b, [x = Number.NaN]) => v(b, 1) + v(b, 2) * exp(-x * v(b, 4)) + v(b, 3) * exp(-x * v(b, 5)),
  Misra1a: growth,
  Misra1b: (b, [x = Number.NaN]) => v(b, 1) * (1 - (1 + (v(b, 2) * x) / 2) ** -2),
  Misra1c: (b, [x = Number.NaN]) => v(b, 1) * (1 - (1 + 2 * v(b, 2) * x) ** -0.5),
  Misra1d: (b, [x = Number.NaN]) => (v(b, 1) * v(b, 2) * x) / (1 + v(b, 2) * x),
  Nelson: (b, [x1 = Number.NaN, x2 = Number.NaN]) => v(b, 1) - v(b, 2) * x1 * exp(-v(b, 3) * x2),
  Rat42: (b, [x = Number.NaN]) => v(b, 1) / (1 + exp(v(b, 2) - v(b, 3) * x)),
  Rat43: (b, [x = Number.NaN]) => v(b, 1) / (1 + exp(v(b, 2) - v(b, 3) * x)) ** (1 / v(b, 4)),
  Roszman1: (b, [x = Number.NaN]) => v(b, 1) - v(b, 2) * x - atan(v(b, 3) / (x - v(b, 4))) / PI,
  Thurber: cubicOverCubic,
};
