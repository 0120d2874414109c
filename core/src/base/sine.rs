//! Sine and cosine of the angles of a gear.
//!
//! The standard library takes angles of any size, for which it keeps hundreds of digits of π and
//! kilobytes of engine. No angle here is larger than a shaft turns in a session.

use std::f64::consts::FRAC_PI_2;

/// π/2 in 33 bits, so that a million times this is exact, and what is left of it.
const QUARTER: f64 = 1.570_796_326_734_125_6;
const REST: f64 = 6.077_100_506_506_192e-11;

/// Sine and cosine of an angle in radians, to some 1e-15 where it is no more than a few thousand turns.
pub fn sin_cos(angle: f64) -> (f64, f64) {
    // The quarter turn next to the angle, and what is left, up to an eighth of a turn.
    let quarters = (angle / FRAC_PI_2).round_ties_even();
    let left = angle - quarters * QUARTER - quarters * REST;
    let square = left * left;
    // The series of both at once, from the last term that counts on.
    let (mut sine, mut cosine) = (1.0, 1.0);
    for term in (1..=9).rev() {
        let term = f64::from(2 * term);
        sine = 1.0 - square / (term * (term + 1.0)) * sine;
        cosine = 1.0 - square / (term * (term - 1.0)) * cosine;
    }
    sine *= left;
    match quarters as i64 & 3 {
        0 => (sine, cosine),
        1 => (cosine, -sine),
        2 => (-sine, -cosine),
        _ => (-cosine, sine),
    }
}

#[cfg(test)]
mod tests {
    use super::sin_cos;

    #[test]
    fn it_agrees_with_the_standard_library() {
        for step in -40_000..40_000 {
            let angle = f64::from(step) * 0.314;
            let (sine, cosine) = sin_cos(angle);
            let tolerance = 1e-15 * (1.0 + angle.abs());
            assert!((sine - angle.sin()).abs() < tolerance, "{angle}");
            assert!((cosine - angle.cos()).abs() < tolerance, "{angle}");
        }
        assert_eq!(sin_cos(0.0), (0.0, 1.0));
    }
}
