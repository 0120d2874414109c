//! Steps of a grid, and what its lines are called.

use levertrain_core::words;

/// The smallest of 1, 2 and 5 times a power of ten that is at least `least`.
pub(super) fn tidy(least: f64) -> f64 {
    let power = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|&step| step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// A multiple of a tidy step, with no more figures than the step has.
pub(super) fn plain(value: f64, step: f64) -> String {
    let decimals = (-step.log10().floor()).max(0.0) as u32;
    let before = if value.abs() >= 1.0 {
        // A multiple of a step may fall just short of the power of ten it stands for.
        (value.abs().log10() + 1e-9).floor() as u32 + 1
    } else {
        1
    };
    if value == 0.0 {
        "0".to_owned()
    } else {
        words::number(value, before + decimals)
    }
}
