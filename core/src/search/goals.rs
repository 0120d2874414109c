//! What ratios must be: each goal is a product of powers of ratios and the window that it must be in.

use super::ask::{Ask, Near, Wanted};
use crate::base::problem::Problem;

/// Windows are widened by this part before doubles are compared with them; what is near an end is decided by exact
/// ratios.
const WIDER: f64 = 1e-9;

/// A product of powers of ratios that must be in a window.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Goal {
    /// Which of the wanted ranges, and the powers of their ratios.
    pub powers: Vec<(usize, i32)>,
    /// What is wanted; nothing where only the window matters.
    pub wanted: Option<f64>,
    /// Least and most, both allowed.
    pub window: [f64; 2],
}

/// All goals of a search.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Goals {
    pub all: Vec<Goal>,
    pub steps: Steps,
}

/// The steps between forward ranges, and their law.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Steps {
    /// The wanted ranges that drive forwards, in their order.
    pub ranges: Vec<usize>,
    /// What each step over the next one should be.
    pub law: f64,
}

impl Goals {
    /// Those of an ask; `forwards` says of each wanted range without a ratio whether it drives forwards.
    pub(super) fn new(ask: &Ask, forwards: &[bool], problems: &mut Vec<Problem>) -> Self {
        let mut all = Vec::new();
        for (at, wanted) in ask.wanted.iter().enumerate() {
            if let Some((ratio, tolerance)) = wanted.ratio.zip(Some(wanted.tolerance())) {
                let place = format!("wanted[{at}]");
                check(&place, "ratio", ratio.abs(), RATIOS, problems);
                check(&place, "tolerance", tolerance, TOLERANCES, problems);
                all.push(goal(vec![(at, 1)], ratio, tolerance));
            } else {
                // A free one keeps its direction.
                let (least, most) = RATIOS;
                let window = if forwards[at] {
                    [least, most]
                } else {
                    [-most, -least]
                };
                all.push(Goal {
                    powers: vec![(at, 1)],
                    wanted: None,
                    window,
                });
            }
        }
        let is_forward = |at: usize, wanted: &Wanted| match wanted.ratio {
            Some(ratio) => ratio > 0.0,
            None => forwards[at],
        };
        let wanted = ask.wanted.iter().enumerate();
        let ranges: Vec<usize> = wanted
            .filter(|(at, wanted)| is_forward(*at, wanted))
            .map(|(at, _)| at)
            .collect();
        if let (Some(Near { value, tolerance }), [first, .., last]) = (ask.spread, &ranges[..]) {
            check("spread", "value", value, (1.0, RATIOS.1), problems);
            check("spread", "tolerance", tolerance, TOLERANCES, problems);
            all.push(goal(vec![(*first, 1), (*last, -1)], value, tolerance));
        }
        if let Some(Near { value, tolerance }) = ask.steps {
            check("steps", "value", value, LAWS, problems);
            check("steps", "tolerance", tolerance, TOLERANCES, problems);
            for three in ranges.windows(3) {
                let powers = vec![(three[0], 1), (three[1], -2), (three[2], 1)];
                all.push(Goal {
                    wanted: None,
                    ..goal(powers, value, tolerance)
                });
            }
        }
        // Ranges whose ratios are free fall all the same, as those of any transmission do.
        for two in ranges.windows(2) {
            if two.iter().any(|&at| ask.wanted[at].ratio.is_none()) {
                all.push(Goal {
                    powers: vec![(two[0], 1), (two[1], -1)],
                    wanted: None,
                    window: [1.0, f64::INFINITY],
                });
            }
        }
        let law = ask.steps.map_or(1.0, |near| near.value);
        Self {
            all,
            steps: Steps { ranges, law },
        }
    }

    /// Whether all goals hold for these ratios, one for each wanted range.
    pub(super) fn hold(&self, ratios: &[f64]) -> bool {
        self.all.iter().all(|goal| {
            let value = goal.value(ratios);
            goal.window[0] <= value && value <= goal.window[1]
        })
    }

    /// How far what is off most is off.
    pub(super) fn error(&self, ratios: &[f64]) -> f64 {
        let errors = self.all.iter().filter_map(|goal| {
            let wanted = goal.wanted?;
            Some((goal.value(ratios) / wanted - 1.0).abs())
        });
        errors.fold(0.0, f64::max)
    }
}

impl Goal {
    /// Its value for these ratios.
    pub(super) fn value(&self, ratios: &[f64]) -> f64 {
        let powers = self.powers.iter();
        powers.fold(1.0, |product, &(at, power)| {
            product * ratios[at].powi(power)
        })
    }

    /// Between which values it is where the ratios are within these bounds. One ratio has the very bounds; a
    /// product has those of the products of ends, where all are above zero, and otherwise any.
    pub(super) fn bounds(&self, ratios: &[[f64; 2]]) -> [f64; 2] {
        if let [(at, 1)] = self.powers[..] {
            return ratios[at];
        }
        let (mut least, mut most) = (1.0, 1.0);
        for &(at, power) in &self.powers {
            let [low, high] = ratios[at];
            if low <= 0.0 {
                return [f64::NEG_INFINITY, f64::INFINITY];
            }
            let ends = [low.powi(power), high.powi(power)];
            least *= ends[0].min(ends[1]);
            most *= ends[0].max(ends[1]);
        }
        [least, most]
    }

    /// The window, a little wider.
    pub(super) fn wider(&self) -> [f64; 2] {
        let [least, most] = self.window;
        [least - least.abs() * WIDER, most + most.abs() * WIDER]
    }
}

/// Ratios, tolerances and laws of steps that can be asked for.
const RATIOS: (f64, f64) = (0.001, 1000.0);
const TOLERANCES: (f64, f64) = (0.0, 0.5);
const LAWS: (f64, f64) = (0.5, 2.0);

fn goal(powers: Vec<(usize, i32)>, wanted: f64, tolerance: f64) -> Goal {
    let ends = [1.0 - tolerance, 1.0 + tolerance].map(|part| wanted * part);
    Goal {
        powers,
        wanted: Some(wanted),
        window: [ends[0].min(ends[1]), ends[0].max(ends[1])],
    }
}

fn check(place: &str, field: &str, value: f64, (least, most): (f64, f64), to: &mut Vec<Problem>) {
    if !(least..=most).contains(&value) {
        let place = format!("{place}.{field}");
        to.push(Problem::out_of_range(
            &place,
            "problem-out-of-range",
            value,
            least,
            most,
        ));
    }
}

/// How far steps are from their law; see [`super::Measures::unevenness`].
pub(super) fn unevenness(steps: &Steps, ratios: &[f64]) -> f64 {
    let off = |three: &[usize]| {
        let [one, two, three] = [three[0], three[1], three[2]].map(|at| ratios[at]);
        let off = one * three / (two * two) / steps.law;
        off.max(1.0 / off) - 1.0
    };
    steps.ranges.windows(3).map(off).fold(0.0, f64::max)
}

/// The least that it can be where the ratios are within these bounds.
pub(super) fn least_unevenness(steps: &Steps, bounds: &[[f64; 2]]) -> f64 {
    let off = |three: &[usize]| {
        let [one, two, three] = [three[0], three[1], three[2]].map(|at| bounds[at]);
        if [one, two, three].iter().any(|[low, _]| *low <= 0.0) {
            return 0.0;
        }
        let least = one[0] * three[0] / (two[1] * two[1]) / steps.law;
        let most = one[1] * three[1] / (two[0] * two[0]) / steps.law;
        (least.max(1.0 / most) - 1.0).max(0.0)
    };
    steps.ranges.windows(3).map(off).fold(0.0, f64::max)
}
