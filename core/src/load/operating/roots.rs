//! Roots of functions of one variable, all of them in a range.

use crate::base::short_sort::sort_short_by;

/// A bracket this small beside the variable is a root: a few roundings of an `f64`, so that
/// what is computed from it keeps some twelve digits.
const BRACKET: f64 = 1e-15;
/// A function made relative to its terms is zero at this size at the end of a range, where
/// rounding decides its sign.
const ZERO: f64 = 1e-12;
/// Steps in which a range is looked through for changes of sign. Two roots within one step are
/// still found if the function dips towards zero between them (see [`all`]).
const STEPS: usize = 48;
/// Halvings after which a dip that has not reached zero never will.
const NARROWINGS: usize = 60;

/// The two roots of c0 + c1·x + c2·x², in an order that does not change while the sign of c1
/// does not; infinite or not a number where there is none.
///
/// The form that never subtracts nearly equal numbers (from memory; it is in most books on
/// numerical methods).
pub(super) fn quadratic([c0, c1, c2]: [f64; 3]) -> [f64; 2] {
    let root = (c1 * c1 - 4.0 * c0 * c2).sqrt();
    let q = -0.5 * (c1 + root.copysign(c1));
    [q / c2, c0 / q]
}

/// All roots of a continuous function from `from` to `to`, in rising order.
///
/// Every step with a change of sign is halved until no narrower bracket helps. Where the
/// function comes closer to zero and turns back without reaching it, the dip is narrowed down
/// in case it does reach zero in between.
pub(crate) fn all(f: &dyn Fn(f64) -> f64, from: f64, to: f64) -> Vec<f64> {
    let at = |step: usize| from + (to - from) * (step as f64 / STEPS as f64);
    let samples: Vec<(f64, f64)> = (0..=STEPS).map(|step| (at(step), f(at(step)))).collect();
    let mut roots = Vec::new();
    for (end, value) in samples.first().into_iter().chain(samples.last()) {
        if value.abs() <= ZERO {
            roots.push(*end);
        }
    }
    for (a, b) in samples.iter().zip(samples.iter().skip(1)) {
        if a.1 * b.1 < 0.0 {
            roots.push(bisect(f, *a, b.0));
        } else if b.1 == 0.0 {
            roots.push(b.0);
        }
    }
    let middles = samples.iter().skip(1).zip(samples.iter().skip(2));
    for (a, (middle, b)) in samples.iter().zip(middles) {
        let alike = a.1 * middle.1 > 0.0 && b.1 * middle.1 > 0.0;
        let dips = middle.1.abs() < a.1.abs() && middle.1.abs() < b.1.abs();
        if alike
            && dips
            && let Some(beyond) = through(f, *a, *middle, *b)
        {
            roots.push(bisect(f, *a, beyond));
            roots.push(bisect(f, *b, beyond));
        }
    }
    sort_short_by(&mut roots, f64::total_cmp);
    roots.dedup();
    roots
}

/// A root between `start` and `end`, where the function has the other sign.
fn bisect(f: &dyn Fn(f64) -> f64, start: (f64, f64), end: f64) -> f64 {
    let (mut start, value, mut end) = (start.0, start.1, end);
    let least = BRACKET * start.abs().max(end.abs());
    while (end - start).abs() > least {
        let middle = start + (end - start) / 2.0;
        if middle == start || middle == end {
            break;
        }
        if f(middle) * value > 0.0 {
            start = middle;
        } else {
            end = middle;
        }
    }
    start + (end - start) / 2.0
}

/// Where a dip goes through zero, if it does: it is narrowed down around its middle.
fn through(
    f: &dyn Fn(f64) -> f64,
    mut a: (f64, f64),
    mut middle: (f64, f64),
    mut b: (f64, f64),
) -> Option<f64> {
    for _ in 0..NARROWINGS {
        for toward_b in [false, true] {
            let other = if toward_b { b.0 } else { a.0 };
            let x = middle.0 + (other - middle.0) / 2.0;
            let tried = (x, f(x));
            if tried.1 * middle.1 < 0.0 {
                return Some(x);
            }
            // The lower of the two stays in the middle; the other closes in from its side.
            let is_lower = tried.1.abs() < middle.1.abs();
            let outer = if is_lower { middle } else { tried };
            if is_lower == toward_b {
                a = outer;
            } else {
                b = outer;
            }
            if is_lower {
                middle = tried;
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(f: impl Fn(f64) -> f64, expected: &[f64]) {
        let found = all(&f, -1.0, 2.0);
        assert!(
            found.len() == expected.len()
                && found
                    .iter()
                    .zip(expected)
                    .all(|(x, y)| (x - y).abs() < 1e-12),
            "found {found:?}, expected {expected:?}"
        );
    }

    #[test]
    fn every_root_is_found() {
        check(|x| x * x - 2.0, &[2.0_f64.sqrt()]);
        check(|x| x * x + 0.1, &[]);
        check(|x| (x + 0.5) * (x - 0.25) * (x - 1.75), &[-0.5, 0.25, 1.75]);
        // Ends of the range.
        check(|x| (x + 1.0) * (x - 2.0), &[-1.0, 2.0]);
        // Two within a step of 1/16.
        check(|x| (x - 0.3201) * (x - 0.3202), &[0.3201, 0.3202]);
        check(|x| (x - 0.32) * (x - 0.32) + 1e-12, &[]);
    }

    #[test]
    fn a_quadratic_keeps_its_digits() {
        // (x − 1)(x − 1e9) = 1e9 − (1e9 + 1)·x + x².
        let [far, near] = quadratic([1e9, -(1e9 + 1.0), 1.0]);
        assert!((far - 1e9).abs() < 1e-3 && (near - 1.0).abs() < 1e-15);
        assert_eq!(quadratic([3.0, 2.0, 0.0])[1], -1.5);
        assert!(quadratic([1.0, 0.0, 1.0]).iter().all(|x| x.is_nan()));
    }
}
