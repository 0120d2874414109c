//! What the drawings show at one instant: who turns which way, how fast, and how far along.

use levertrain_core::words::word;
use levertrain_core::{Body, Combination, ElementSet, Train};

use crate::motion::powers::Powers;
use crate::motion::reach::Reach;
use crate::units::speed_unit::SpeedUnit;

/// How a member moves, as a drawing must tell it apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// Stands still, and must.
    Held,
    /// Turns the way the input does.
    Forward,
    /// Turns against the input.
    Backward,
    /// Nothing decides its speed.
    Free,
    /// Part of a fight that ties the train up.
    Fighting,
}

impl Motion {
    /// The word for it.
    pub fn word(self) -> &'static str {
        word(match self {
            Self::Held => "motion-held",
            Self::Forward => "motion-forward",
            Self::Backward => "motion-backward",
            Self::Free => "motion-free",
            Self::Fighting => "motion-fights",
        })
    }

    /// The same for the page, whatever language is spoken.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Held => "held",
            Self::Forward => "forward",
            Self::Backward => "backward",
            Self::Free => "free",
            Self::Fighting => "fights",
        }
    }
}

/// One instant, ready to draw. Speeds are per input turn, angles in radians; both glide, so
/// between two combinations they belong to neither.
#[derive(Debug, Clone)]
pub struct Live<'a> {
    /// The train.
    pub train: &'a Train,
    /// The applied elements.
    pub applied: ElementSet,
    /// How each shaft moves in the combination arrived at.
    pub motions: Vec<Motion>,
    /// Speed of each shaft as shown.
    pub speeds: Vec<f64>,
    /// How far each shaft has turned since the start.
    pub angles: Vec<f64>,
    /// How far each element is closed as shown: 0 open, 1 applied.
    pub grips: Vec<f64>,
    /// Elements that fight.
    pub fighting: ElementSet,
    /// The shaft pointed at.
    pub lit: Option<usize>,
    /// The shafts that are told of, a bit each.
    pub told: u64,
    /// Input speed in rev/min.
    pub input_speed: f64,
    /// The unit that speeds are lettered in.
    pub speed_unit: SpeedUnit,
    /// Speeds that the change being tried would give; `None` where it leaves them free.
    pub preview: Option<Vec<Option<f64>>>,
    /// How far speeds reach in the named ranges and in what is applied.
    pub reach: Reach,
    /// Power to be shown on the half-section, where it is wanted and known.
    pub powers: Option<Powers>,
    /// Whether speeds are set by hand: then the input is one member among others.
    pub by_hand: bool,
}

impl Live<'_> {
    /// How a body moves; the housing is held.
    pub fn motion(&self, body: Body) -> Motion {
        match body {
            Body::Housing => Motion::Held,
            Body::Shaft(shaft) => self.motions[shaft],
        }
    }

    /// Speed of a body as shown.
    pub fn speed(&self, body: Body) -> f64 {
        match body {
            Body::Housing => 0.0,
            Body::Shaft(shaft) => self.speeds[shaft],
        }
    }

    /// Speed of a body in the unit of the lettering.
    pub fn lettered_speed(&self, body: Body) -> f64 {
        self.speed_unit.of(self.speed(body) * self.input_speed)
    }

    /// How far a body has turned.
    pub fn angle(&self, body: Body) -> f64 {
        match body {
            Body::Housing => 0.0,
            Body::Shaft(shaft) => self.angles[shaft],
        }
    }

    /// Whether a body is pointed at, or told of.
    pub fn is_lit(&self, body: Body) -> bool {
        matches!(body, Body::Shaft(shaft) if self.lit == Some(shaft) || self.told >> shaft & 1 == 1)
    }
}

/// How each shaft moves in a combination.
pub fn motions(combination: &Combination<'_>) -> Vec<Motion> {
    let train = combination.train();
    let fight = combination.fight();
    let fights = |shaft: usize| {
        let Some(fight) = &fight else { return false };
        let ends = fight
            .elements
            .iter()
            .flat_map(|element| train.ends(element));
        ends.into_iter().any(|body| body == Body::Shaft(shaft))
    };
    // A shaft between sets that fight stands still because of them, unless the housing holds it.
    let blocked = |shaft: usize| {
        let Some(fight) = &fight else { return false };
        let body = Body::Shaft(shaft);
        let mut members = fight.couplings.iter().flat_map(|&at| train.members(at));
        let mut applied = combination.applied().iter().map(|at| train.ends(at));
        members.any(|&member| member == body)
            && !applied.any(|ends| ends.contains(&body) && ends.contains(&Body::Housing))
    };
    (0..train.scenario().shafts.len())
        .map(|shaft| match combination.shaft_speed(shaft) {
            _ if fights(shaft) => Motion::Fighting,
            None => Motion::Free,
            Some(speed) => match speed.signum() {
                0 if blocked(shaft) => Motion::Fighting,
                0 => Motion::Held,
                1 => Motion::Forward,
                _ => Motion::Backward,
            },
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_fight_blocks_is_not_held_unless_a_brake_holds_it() {
        let file = include_str!("../../../scenarios/04-six-speed-three-sets.json");
        let train = Train::parse(file).unwrap_or_else(|problems| panic!("{problems:?}"));
        let said = |applied: &[&str], label: &str| {
            let applied = train.element_set(applied.iter().copied());
            let applied = applied.unwrap_or_else(|problems| panic!("{problems:?}"));
            let shafts = 0..train.scenario().shafts.len();
            let mut moves = shafts.zip(motions(&train.solve(applied)));
            let found = moves.find(|&(shaft, _)| train.body_label(Body::Shaft(shaft)) == label);
            found.map(|(_, motion)| motion)
        };
        let carriers = "Carriers 2 and 3";
        assert_eq!(said(&["W", "H", "K"], carriers), Some(Motion::Fighting));
        // Not tied up: its neighbours hold it, and it stands still.
        assert_eq!(said(&["J", "K"], carriers), Some(Motion::Held));
    }
}
