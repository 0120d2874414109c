//! What a plate clutch or brake can hold, and how far a combination is from making it slip.
//!
//! In `f64`: friction is empirical. The torques it is compared with are the exact ones.
//! A figure for learning and early layout, not a strength rating: nothing here heats, fades,
//! drags or wears, and the clamp force is taken as given.

use levertrain_exact::Fraction;

use crate::model::scenario::Friction;
use crate::solve::Combination;
use crate::solve::torque::Torques;

/// Static torque capacity of ring-shaped friction surfaces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capacity {
    /// N·m, with linings that have run in, so that pressure times radius is the same everywhere.
    /// The lower of the two, and the one margins are reckoned with.
    pub uniform_wear: f64,
    /// N·m, with new linings on stiff plates, so that the pressure is the same everywhere.
    pub uniform_pressure: f64,
    /// Greatest pressure on a run-in lining, at its inner edge, in N/mm².
    pub greatest_pressure: f64,
}

impl Capacity {
    /// The capacity of friction surfaces.
    ///
    /// Uniform wear: T = μ·F·n·(ro + ri)/2, with F = 2π·p·ri·(ro − ri) for the greatest pressure
    /// p (Modelica Standard Library, `Clutch`, whose cgeo is n·(ro + ri)/2). Uniform pressure:
    /// T = (2/3)·μ·F·n·(ro³ − ri³)/(ro² − ri²) (J. E. Shigley, *Mechanical Engineering Design*,
    /// from memory). Radii in mm and F in N give T in N·mm and p in N/mm²; T is turned into N·m.
    pub fn of(friction: &Friction) -> Self {
        let (ro, ri) = (friction.outer_radius, friction.inner_radius);
        let force = friction.clamp_force;
        let rub = friction.coefficient * force * f64::from(friction.surfaces) / MM_PER_M;
        // (ro³ − ri³)/(ro² − ri²) without the differences, which would lose digits near ri = ro.
        let pressed = (ro * ro + ro * ri + ri * ri) / (ro + ri);
        Self {
            uniform_wear: rub * (ro + ri) / 2.0,
            uniform_pressure: rub * pressed * 2.0 / 3.0,
            greatest_pressure: force / (std::f64::consts::TAU * ri * (ro - ri)),
        }
    }
}

const MM_PER_M: f64 = 1000.0;

/// How an applied element stands at an input torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grip {
    /// Its capacity is at least what it must hold.
    Holds,
    /// It must hold more than its capacity.
    Slips,
    /// It carries no torque.
    Idle,
    /// Equilibrium does not say what it must hold: more is applied than needed.
    Undetermined,
    /// The scenario does not say what it can hold.
    NoData,
}

/// What one applied element must hold, and what it can.
#[derive(Debug, Clone)]
pub struct Holding {
    /// Its index.
    pub element: usize,
    /// Size of the torque it must hold per unit of input torque, without losses; `None` where
    /// equilibrium does not determine it.
    pub torque: Option<Fraction>,
    /// What it can hold; `None` where the scenario does not say.
    pub capacity: Option<Capacity>,
}

impl Holding {
    /// The elements a combination applies, one-way clutches that lock among them; `None` where
    /// it does not drive.
    pub fn all(combination: &Combination<'_>) -> Option<Vec<Self>> {
        let torques = Torques::of(combination)?;
        let elements = &combination.train().scenario().elements;
        let holding = |element: usize| Self {
            element,
            torque: torques.element(element).map(Fraction::abs),
            capacity: elements[element].friction().map(Capacity::of),
        };
        Some(combination.applied().iter().map(holding).collect())
    }

    /// The largest input torque in N·m that it holds: capacity over torque per unit of input
    /// torque. `None` where either is not known, or it carries none.
    pub fn most_input(&self) -> Option<f64> {
        let torque = self.torque.as_ref().filter(|torque| !torque.is_zero())?;
        Some(self.capacity?.uniform_wear / torque.to_f64())
    }

    /// Capacity over the torque it must hold at an input torque in N·m, whose sign does not
    /// matter; below 1 it slips. `None` where there is nothing to hold or to compare.
    pub fn margin(&self, input_torque: f64) -> Option<f64> {
        let margin = self.most_input()? / input_torque.abs();
        margin.is_finite().then_some(margin)
    }

    /// How it stands at an input torque in N·m.
    pub fn grip(&self, input_torque: f64) -> Grip {
        match (&self.capacity, &self.torque, self.margin(input_torque)) {
            (None, ..) => Grip::NoData,
            (_, None, _) => Grip::Undetermined,
            (_, Some(torque), _) if torque.is_zero() => Grip::Idle,
            (.., Some(margin)) if margin < 1.0 => Grip::Slips,
            _ => Grip::Holds,
        }
    }
}

/// Of the elements a combination applies, the one that slips first as the input torque grows.
/// `None` where none has data and torque, or where one that has data has an undetermined torque
/// and could be the one. Elements without data are left out: they are taken to hold.
pub fn first_to_slip(all: &[Holding]) -> Option<&Holding> {
    let known = all.iter().filter(|holding| holding.capacity.is_some());
    if known.clone().any(|holding| holding.torque.is_none()) {
        return None;
    }
    known
        .filter_map(|holding| Some((holding.most_input()?, holding)))
        .min_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, holding)| holding)
}
