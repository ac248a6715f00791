//! The normal distribution, computed with `libm` so that every machine gives the same digits.

use core::f64::consts::FRAC_1_SQRT_2;

/// The chance that a standard normal value is below `x`.
pub fn share_below(x: f64) -> f64 {
    0.5 * libm::erfc(-x * FRAC_1_SQRT_2)
}

/// The value below which a standard normal value is with a chance of `share`, for a share strictly between 0 and 1.
///
/// Algorithm AS 241, 1988, Applied Statistics 37(3), 477-484: accurate to about 16 digits.
pub fn value_at(share: f64) -> f64 {
    let off = share - 0.5;
    if off.abs() <= 0.425 {
        let rest = 0.180_625 - off * off;
        return off * ratio(&MIDDLE, rest);
    }
    let tail = if off < 0.0 { share } else { 1.0 - share };
    let root = (-libm::log(tail)).sqrt();
    let size = if root <= 5.0 {
        ratio(&TAIL, root - 1.6)
    } else {
        ratio(&FAR_TAIL, root - 5.0)
    };
    size.copysign(off)
}

/// The coefficients of a numerator and a denominator polynomial, the highest power first.
type Ratio = [(f64, f64); 8];

#[rustfmt::skip]
const MIDDLE: Ratio = [
    (2.509_080_928_730_122_7e3, 5.226_495_278_852_854e3),
    (3.343_057_558_358_813e4, 2.872_908_573_572_194_3e4),
    (6.726_577_092_700_87e4, 3.930_789_580_009_271e4),
    (4.592_195_393_154_987e4, 2.121_379_430_158_659_7e4),
    (1.373_169_376_550_946e4, 5.394_196_021_424_751e3),
    (1.971_590_950_306_551_3e3, 6.871_870_074_920_579e2),
    (1.331_416_678_917_843_8e2, 4.231_333_070_160_091e1),
    (3.387_132_872_796_366_5, 1.0),
];

#[rustfmt::skip]
const TAIL: Ratio = [
    (7.745_450_142_783_414e-4, 1.050_750_071_644_416_9e-9),
    (2.272_384_498_926_918_4e-2, 5.475_938_084_995_345e-4),
    (2.417_807_251_774_506e-1, 1.519_866_656_361_645_7e-2),
    (1.270_458_252_452_368_4, 1.481_039_764_274_800_8e-1),
    (3.647_848_324_763_204_5, 6.897_673_349_851e-1),
    (5.769_497_221_460_691, 1.676_384_830_183_803_8),
    (4.630_337_846_156_546, 2.053_191_626_637_759),
    (1.423_437_110_749_683_5, 1.0),
];

#[rustfmt::skip]
const FAR_TAIL: Ratio = [
    (2.010_334_399_292_288_1e-7, 2.044_263_103_389_939_8e-15),
    (2.711_555_568_743_487_6e-5, 1.421_511_758_316_446e-7),
    (1.242_660_947_388_078_4e-3, 1.846_318_317_510_054_8e-5),
    (2.653_218_952_657_612_4e-2, 7.868_691_311_456_133e-4),
    (2.965_605_718_285_048_7e-1, 1.487_536_129_085_061_5e-2),
    (1.784_826_539_917_291_3, 1.369_298_809_227_358e-1),
    (5.463_784_911_164_114, 5.998_322_065_558_88e-1),
    (6.657_904_643_501_104, 1.0),
];

/// The ratio of two polynomials, by Horner's scheme.
fn ratio(coefficients: &Ratio, x: f64) -> f64 {
    let (mut over, mut under) = (0.0, 0.0);
    for (upper, lower) in coefficients {
        over = over * x + upper;
        under = under * x + lower;
    }
    over / under
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    /// Percentage points as in any printed table of the normal distribution, with more digits computed.
    #[test]
    fn shares_and_values_match_the_tables() {
        assert_near!(share_below(0.0), 0.5, 1e-16);
        assert_near!(share_below(1.0), 0.841_344_746_068_542_9, 1e-15);
        assert_near!(share_below(-3.0), 0.001_349_898_031_630_094_5, 1e-17);
        assert_near!(value_at(0.975), 1.959_963_984_540_054, 1e-14);
        assert_near!(value_at(0.5), 0.0, 0.0);
    }

    #[test]
    fn value_and_share_are_inverse() {
        for step in -370..=80 {
            let x = f64::from(step) / 10.0;
            let share = share_below(x);
            if share > 0.0 {
                // A share near 1 leaves few digits for its value.
                let lost = 1e-15 / (share.min(1.0 - share) / share).max(1e-15);
                assert_near!(value_at(share), x, 1e-12 + lost);
            }
        }
    }
}
