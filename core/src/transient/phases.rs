//! The phases of a shift, and where it flares or binds.
//!
//! Phases are named as the trade does (common practice, no source): *fill*, while what is applied does not
//! carry yet; *torque phase*, while it takes torque over and the speeds are still those of the range before,
//! or already those of the range after; *inertia phase*, while the speeds go from one to the other.
//! A *flare* is an input that runs faster than either range would have it at the output's speed. A *tie-up* is an
//! element that is released and still carries torque, but against that which it carried before; or one
//! that is applied and carries torque against that which it will carry, while one that is released still
//! holds on. Both are so by definition here, with no threshold but roundings.

use super::dense::dot;
use super::line::Line;
use super::motion::{Mode, Piece};
use super::plan::Plan;
use super::zeros::zeros;
use crate::solve::settle::Duty;
use crate::solve::torque::Torques;
use crate::train::Train;

/// What a shift is at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// In the range before; nothing carries yet that did not.
    Before,
    /// The same, while something is filled.
    Fill,
    /// Torque is handed over at the speeds of one of the ranges.
    Torque,
    /// The speeds go from one range to the other.
    Inertia,
    /// In the range after.
    After,
}

impl Phase {
    /// A word for data.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Before => "before",
            Self::Fill => "fill",
            Self::Torque => "torque",
            Self::Inertia => "inertia",
            Self::After => "after",
        }
    }
}

/// A stretch of time in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// From.
    pub begin: f64,
    /// To.
    pub end: f64,
}

/// What somebody looks for in a shift.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Marks {
    /// The phases, one after the other; none where one of the ranges does not drive.
    pub phases: Vec<(Phase, Stretch)>,
    /// Where the input runs away.
    pub flares: Vec<Stretch>,
    /// By how much at most, in rad/s.
    pub flare: f64,
    /// Where elements fight, and which it is that fights.
    pub binds: Vec<(usize, Stretch)>,
    /// The largest torque in N·m that it fights with.
    pub bind: f64,
}

/// A flare of a smaller part of the input's speed at the start, and a tie-up of a smaller part of its torque, are slight
/// (choices of ours).
pub const SLIGHT_FLARE: f64 = 0.01;
/// See [`SLIGHT_FLARE`].
pub const SLIGHT_BIND: f64 = 0.05;
/// Against the fastest speed, or the largest torque: what is less is roundings.
const ROUNDING: f64 = 1e-9;

impl Marks {
    pub(super) fn of(train: &Train, fills: &[Stretch], plan: &Plan, pieces: &[Piece]) -> Self {
        let duty = match plan.input_torque < 0.0 {
            true => Duty::Coast,
            false => Duty::Drive,
        };
        let before = train.settle(plan.from, duty).combination;
        let after = train.settle(plan.to, duty).combination;
        let mut marks = Self::default();
        let (ratios, torques) = (
            [&before, &after].map(|x| x.state().ratio().map(|ratio| ratio.to_f64())),
            Torques::of(&after),
        );
        if let [Some(before), Some(after)] = ratios {
            let look = Speeds::of(train, plan, before, after, pieces);
            for piece in pieces {
                marks.phase(&look, fills, plan, piece);
                if before * after > 0.0 {
                    marks.flare(&look, piece);
                }
            }
        }
        let start = |element: usize| pieces.first().map(|piece| piece.torques[element].at);
        for element in plan.released().iter() {
            let sign = start(element).unwrap_or_default();
            marks.bind(element, sign, pieces, |_| true);
        }
        for element in plan.applied().iter() {
            let torque = torques
                .as_ref()
                .and_then(|torques| torques.element(element));
            let sign = torque.map_or(0.0, |torque| torque.to_f64() * plan.input_torque);
            let fights = |piece: &Piece| {
                let mut released = plan.released().iter().collect::<Vec<_>>().into_iter();
                released.any(|element| piece.capacities[element].is_positive())
            };
            marks.bind(element, sign, pieces, fights);
        }
        marks
            .binds
            .sort_by(|(_, a), (_, b)| a.begin.total_cmp(&b.begin));
        marks
    }

    fn phase(&mut self, look: &Speeds, fills: &[Stretch], plan: &Plan, piece: &Piece) {
        let carries = |element: usize| {
            piece.capacities[element].is_positive() && piece.modes[element] != Mode::Open
        };
        let middle = piece.begin + piece.length / 2.0;
        let any = |elements: crate::base::element_set::ElementSet| elements.iter().any(carries);
        let phase = if look.keeps(piece, look.before) && !is_over(plan, piece) {
            match any(plan.applied()) {
                true => Phase::Torque,
                false if fills.iter().any(|x| x.begin <= middle && middle < x.end) => Phase::Fill,
                false => Phase::Before,
            }
        } else if look.keeps(piece, look.after) {
            match any(plan.released()) {
                true => Phase::Torque,
                false => Phase::After,
            }
        } else {
            Phase::Inertia
        };
        let stretch = Stretch {
            begin: piece.begin,
            end: piece.end(),
        };
        match self.phases.last_mut() {
            Some((last, known)) if *last == phase => known.end = stretch.end,
            _ => self.phases.push((phase, stretch)),
        }
    }

    fn flare(&mut self, look: &Speeds, piece: &Piece) {
        let over = [look.over(piece, look.before), look.over(piece, look.after)];
        // Between its zeros each is all above or all below.
        let mut cuts = vec![0.0, piece.length];
        for &(speed, line) in &over {
            let inside = zeros(speed, line).into_iter().flatten();
            cuts.extend(inside.filter(|&at| 0.0 < at && at < piece.length));
            if line.slope != 0.0 {
                let turn = -line.at / line.slope;
                cuts.extend(Some(turn).filter(|&at| 0.0 < at && at < piece.length));
            }
        }
        cuts.sort_by(f64::total_cmp);
        let least = |at: f64| {
            let value =
                |&(speed, line): &(f64, Line)| speed + at * (line.at + line.slope * at / 2.0);
            over.iter().map(value).fold(f64::INFINITY, f64::min)
        };
        for ends in cuts.windows(2) {
            let [begin, end] = [ends[0], ends[1]];
            if least((begin + end) / 2.0) > look.rounding {
                let most = least(begin).max(least(end));
                self.flare = self.flare.max(most);
                join(&mut self.flares, piece.begin + begin, piece.begin + end);
            }
        }
    }

    /// Notes where the torque of an element is against `sign`.
    fn bind(
        &mut self,
        element: usize,
        sign: f64,
        pieces: &[Piece],
        fights: impl Fn(&Piece) -> bool,
    ) {
        let largest = pieces.iter().flat_map(|piece| &piece.torques);
        let largest = largest.map(|torque| torque.at.abs()).fold(0.0, f64::max);
        let rounding = largest * ROUNDING;
        if sign.abs() <= rounding {
            return;
        }
        let mut stretches = Vec::new();
        for piece in pieces.iter().filter(|piece| fights(piece)) {
            let against = piece.torques[element].times(-sign.signum());
            let most = against.at.max(against.after(piece.length));
            if most <= rounding {
                continue;
            }
            let zero = Some(-against.at / against.slope);
            let zero = zero.filter(|&at| 0.0 < at && at < piece.length);
            let (begin, end) = match (zero, against.at > 0.0) {
                (None, _) => (0.0, piece.length),
                (Some(zero), true) => (0.0, zero),
                (Some(zero), false) => (zero, piece.length),
            };
            self.bind = self.bind.max(most);
            join(&mut stretches, piece.begin + begin, piece.begin + end);
        }
        self.binds
            .extend(stretches.into_iter().map(|x| (element, x)));
    }
}

/// Whether all commands have been carried out.
fn is_over(plan: &Plan, piece: &Piece) -> bool {
    let released = plan.released();
    let mut open = released.iter().map(|x| !piece.capacities[x].is_positive());
    let applied = plan.applied();
    let mut held = applied.iter().map(|x| piece.modes[x] == Mode::Holds);
    open.all(|x| x) && held.all(|x| x)
}

fn join(stretches: &mut Vec<Stretch>, begin: f64, end: f64) {
    match stretches.last_mut() {
        Some(last) if begin - last.end < 1e-9 => last.end = end,
        _ => stretches.push(Stretch { begin, end }),
    }
}

/// How the input's speed is compared with what either range would have it.
struct Speeds {
    input: usize,
    output: usize,
    before: f64,
    after: f64,
    /// 1 where the input turns forward.
    way: f64,
    rounding: f64,
}

impl Speeds {
    fn of(train: &Train, plan: &Plan, before: f64, after: f64, pieces: &[Piece]) -> Self {
        let speeds = |piece: &Piece| {
            let all = piece.shafts.iter().map(|(speed, _)| speed.abs());
            all.fold(0.0, f64::max)
        };
        let fastest = pieces.iter().map(speeds).fold(0.0, f64::max);
        Self {
            input: train.input(),
            output: train.output(),
            before,
            after,
            way: plan.input_speed.signum(),
            rounding: fastest * ROUNDING * before.abs().max(after.abs()).max(1.0),
        }
    }

    /// By how much the input is faster than in a range of this ratio, and how that goes on.
    fn over(&self, piece: &Piece, ratio: f64) -> (f64, Line) {
        let (input, faster) = piece.shafts[self.input];
        let (output, other) = piece.shafts[self.output];
        let factors = [self.way, -self.way * ratio];
        (
            dot(&[input, output], &factors),
            faster.times(factors[0]).plus(other.times(factors[1])),
        )
    }

    fn keeps(&self, piece: &Piece, ratio: f64) -> bool {
        let (speed, line) = self.over(piece, ratio);
        let at = |later: f64| speed + later * (line.at + line.slope * later / 2.0);
        [0.0, piece.length / 2.0, piece.length]
            .iter()
            .all(|&later| at(later).abs() <= self.rounding)
    }
}
