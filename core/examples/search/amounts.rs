//! Times and large numbers as people read them.

use levertrain_core::words::said;

/// A time as people say it, with two figures.
pub fn duration(seconds: f64) -> String {
    let units = [
        ("seconds", 1.0),
        ("minutes", 60.0),
        ("hours", 3600.0),
        ("days", 86_400.0),
        ("years", 31_557_600.0),
    ];
    let fits = units.iter().rev().find(|(_, size)| seconds >= 2.0 * size);
    let (unit, size) = fits.unwrap_or(&units[0]);
    let value = seconds / size;
    let number = match value {
        value if value >= 1e6 => large(value),
        value if value >= 10.0 => format!("{value:.0}"),
        value => format!("{value:.1}"),
    };
    said("duration", &[("unit", *unit), ("number", &number)])
}

pub fn large(count: f64) -> String {
    format!("{count:.3e}")
}
