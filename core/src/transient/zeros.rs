//! Where what changes evenly, or with an even acceleration, comes to zero.

use super::line::Line;

/// When a line that is not below zero now comes to zero on its way down; `None` where it does not.
pub(super) fn first_zero_of_line(line: Line) -> Option<f64> {
    (line.slope < 0.0).then(|| (line.at / -line.slope).max(0.0))
}

/// When a speed comes to zero after now, by its value and its acceleration. One that is zero now has left it
/// just after.
pub(super) fn first_zero((speed, acceleration): (f64, Line)) -> Option<f64> {
    zeros(speed, acceleration)
        .into_iter()
        .flatten()
        .filter(|&zero| zero > 0.0)
        .reduce(f64::min)
}

/// The zeros of speed + at·τ + ½·slope·τ², without differences that lose digits. A zero at 0 is left out where the speed is 0.
pub(super) fn zeros(speed: f64, Line { at, slope }: Line) -> [Option<f64>; 2] {
    let finite = |zero: f64| zero.is_finite().then_some(zero);
    if speed == 0.0 {
        return [finite(-2.0 * at / slope), None];
    }
    let square = at * at - 2.0 * slope * speed;
    if square < 0.0 {
        return [None, None];
    }
    let sum = -(at + at.signum() * square.sqrt());
    [finite(2.0 * speed / sum), finite(sum / slope)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zeros_are_found_on_either_side() {
        let line = |at, slope| Line { at, slope };
        assert_eq!(first_zero((6.0, line(-5.0, 2.0))), Some(2.0));
        assert_eq!(first_zero((6.0, line(-2.0, 0.0))), Some(3.0));
        assert_eq!(first_zero((6.0, line(0.0, -3.0))), Some(2.0));
        assert_eq!(first_zero((0.0, line(-1.0, 4.0))), Some(0.5));
        assert_eq!(first_zero((0.0, line(1.0, 4.0))), None);
        assert_eq!(first_zero((6.0, line(5.0, 2.0))), None);
        assert_eq!(first_zero_of_line(line(6.0, -2.0)), Some(3.0));
        assert_eq!(first_zero_of_line(line(6.0, 2.0)), None);
    }
}
