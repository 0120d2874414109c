//! An instant of something that moves in time, or of what is turned by hand, shown in place of the steady motion.

use levertrain_core::ElementSet;
use levertrain_core::sources::Stand;
use levertrain_core::transient::{Dynamics, Mode, Shift};

use super::live::{Live, Motion};
use super::reach::{RAD_PER_S, Reach};

/// A speed this small against the fastest is that of something held.
const STILL: f64 = 1e-9;

/// What is moving how at one instant. It stays on the drawings until something is applied.
#[derive(Debug, Clone, PartialEq)]
pub struct Instant {
    /// The speed in rev/min that others are given in.
    pub input_speed: f64,
    /// Speed of each shaft, per `input_speed`.
    pub speeds: Vec<f64>,
    /// How each shaft moves.
    pub motions: Vec<Motion>,
    /// The elements whose ends turn alike.
    pub applied: ElementSet,
    /// How far each element is closed: 0 open, 1 as far as it will be.
    pub grips: Vec<f64>,
    /// Elements that fight.
    pub fighting: ElementSet,
    /// How far speeds reach before and after, so that axes stay.
    pub reach: Reach,
    /// Whether speeds are set by hand.
    pub by_hand: bool,
}

impl Instant {
    /// That of a shift at a time; `None` where the shift has no such.
    pub fn of_shift(dynamics: &Dynamics, shift: &Shift, time: f64) -> Option<Self> {
        let (piece, later) = shift.at(time)?;
        let input = shift.plan.input_speed * RAD_PER_S;
        let shafts = 0..piece.shafts.len();
        let speeds: Vec<f64> = shafts
            .map(|shaft| piece.shaft_speed(shaft, later) / input)
            .collect();
        let fastest = speeds.iter().map(|x| x.abs()).fold(0.0, f64::max);
        let motion = |speed: &f64| match *speed {
            speed if speed.abs() <= STILL * fastest => Motion::Held,
            speed if speed > 0.0 => Motion::Forward,
            _ => Motion::Backward,
        };
        let grip = |element: usize| {
            let full = dynamics.full_torque(element).value;
            match piece.modes[element] {
                // One that slips as a ramp closes it is closed as far as the ramp is.
                Mode::Open | Mode::SlipsForward | Mode::SlipsBackward => {
                    (piece.capacities[element].after(later) / full).clamp(0.0, 1.0)
                }
                Mode::Holds => 1.0,
            }
        };
        let elements = 0..piece.modes.len();
        let binds = shift.marks.binds.iter();
        let binds = binds.filter(|(_, x)| (x.begin..=x.end).contains(&time));
        Some(Self {
            input_speed: shift.plan.input_speed,
            motions: speeds.iter().map(motion).collect(),
            applied: elements
                .clone()
                .filter(|&x| piece.modes[x] == Mode::Holds)
                .collect(),
            grips: elements.map(grip).collect(),
            fighting: binds.map(|(element, _)| *element).collect(),
            reach: Reach::of_shift(shift),
            by_hand: false,
            speeds,
        })
    }

    /// That of speeds set by hand, on an axis that reaches from the one speed in rev/min to the other.
    pub fn by_hand(stand: &Stand, elements: usize, reach: (f64, f64)) -> Self {
        let turns = stand.turns();
        let fastest = turns.iter().map(|turn| turn.abs()).fold(0.0, f64::max);
        // Animated turns are those per unit: what is slow against all others is none.
        let unit = turns[stand.ports().list[0].shaft]
            .abs()
            .max(fastest / 10.0)
            .max(1.0);
        let motion = |(shaft, &speed): (usize, &f64)| match speed {
            _ if !stand.turns_at_all(shaft) => Motion::Held,
            speed if speed < 0.0 => Motion::Backward,
            _ => Motion::Forward,
        };
        let grip = |element: usize| f64::from(u8::from(stand.applied().contains(element)));
        Self {
            input_speed: unit,
            speeds: turns.iter().map(|turn| turn / unit).collect(),
            motions: turns.iter().enumerate().map(motion).collect(),
            applied: stand.applied(),
            grips: (0..elements).map(grip).collect(),
            fighting: ElementSet::NONE,
            reach: Reach {
                low: reach.0 / unit,
                high: reach.1 / unit,
            },
            by_hand: true,
        }
    }

    /// Has the drawings show it.
    pub fn put_on(&self, live: &mut Live<'_>) {
        live.input_speed = self.input_speed;
        live.speeds.clone_from(&self.speeds);
        live.motions.clone_from(&self.motions);
        live.applied = self.applied;
        live.grips.clone_from(&self.grips);
        live.fighting = self.fighting;
        live.reach = self.reach;
        live.preview = None;
        live.by_hand = self.by_hand;
        // Those of the steady motion are not those of now.
        live.powers = None;
    }
}
