//! Steps of a grid, and what its lines are called.

use levertrain_core::words;

/// The smallest of 1, 2 and 5 times a power of ten that is at least `least`.
pub(super) fn tidy(least: f64) -> f64 {
    let power = power_of_ten(least);
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|&step| step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// Powers of ten are counted from minus this to this.
const LARGEST_POWER: i32 = 300;

/// The greatest power of ten that is at most `value`, which is above zero.
///
/// Counted: a logarithm and a power of any number are kilobytes of engine.
fn power_of_ten(value: f64) -> f64 {
    let mut power: i32 = 0;
    while power < LARGEST_POWER && 10_f64.powi(power) <= value {
        power += 1;
    }
    while power > -LARGEST_POWER && 10_f64.powi(power) > value {
        power -= 1;
    }
    10_f64.powi(power)
}

/// A multiple of a tidy step, with no more figures than the step has.
pub(super) fn plain(value: f64, step: f64) -> String {
    let mut decimals = 0;
    let mut size = step;
    // Its own rounding may keep a step just short of the power of ten it stands for.
    while size < 1.0 - 1e-9 {
        size *= 10.0;
        decimals += 1;
    }
    let mut before = 1;
    let mut size = value.abs();
    while size >= 10.0 * (1.0 - 1e-9) {
        size /= 10.0;
        before += 1;
    }
    if value == 0.0 {
        "0".to_owned()
    } else {
        words::number(value, before + decimals)
    }
}
