//! What a range pulls with: force at the wheels over road speed at full pedal, the fastest that it goes, and the steepest
//! that it climbs.

use super::source::{Between, Driven, Source, Stretch};
use super::vehicle::Vehicle;
use crate::load::operating::gear::Gear;
use crate::load::operating::roots;

/// Places in each stretch that are looked at for the steepest slope, before the best of them is closed in on.
const LOOKS: u32 = 32;
/// Times that the room round the best is made smaller: by the golden section a part of 1e-9 is left.
const NARROWINGS: u32 = 44;
/// Straight pieces that a stretch of a course through the converter is told by; without one a single piece is exact.
const COURSE: u32 = 10;
/// The smaller part of the golden section.
const GOLDEN: f64 = 0.381_966_011_250_105_1;

/// The force of a range at a road speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Force {
    /// Road speed in m/s, without sign.
    pub speed: f64,
    /// Force at the wheels in N, in the direction of travel.
    pub force: f64,
    /// Engine and input.
    pub driven: Driven,
    /// What is between them.
    pub between: Between,
}

/// The fastest that a range goes on the level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Top {
    /// What it is there.
    pub at: Force,
    /// Whether the engine runs out of its table there, with force to spare; otherwise force and road are in balance.
    pub at_engine_limit: bool,
}

/// The steepest that a range climbs at a speed that it can keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climb {
    /// Rise over run, negative where the range holds its speed only downhill; infinite where it would lift the whole weight.
    pub slope: f64,
    /// Where that is.
    pub at: Force,
}

/// A range that drives, ready to be asked.
#[derive(Debug, Clone)]
pub struct Pull {
    /// Its number among the ranges of the train.
    pub range: usize,
    /// Input speed over output speed; negative backward.
    pub ratio: f64,
    /// Power out over power in of the train.
    pub efficiency: f64,
    /// Whether the engine and the input are one, above the engine's lowest speed.
    pub locked: bool,
    gear: Gear,
    source: Source,
    vehicle: Vehicle,
}

impl Pull {
    pub(super) fn new(
        range: usize,
        gear: Gear,
        source: Source,
        locked: bool,
        vehicle: Vehicle,
    ) -> Self {
        Self {
            range,
            ratio: gear.ratio,
            efficiency: gear.driving,
            locked,
            gear,
            source,
            vehicle,
        }
    }

    /// Road speed at an input speed in rev/min.
    pub(super) fn speed(&self, input: f64) -> f64 {
        self.vehicle.speed(input / self.ratio.abs())
    }

    fn input(&self, speed: f64) -> f64 {
        self.vehicle.output(speed) * self.ratio.abs()
    }

    /// Its force at a road speed; none where the engine cannot run there.
    pub fn at(&self, speed: f64) -> Option<Force> {
        let stretch = self.source.stretch(self.input(speed))?;
        Some(self.on(stretch, speed))
    }

    /// The same on a stretch.
    pub(super) fn on(&self, stretch: &Stretch, speed: f64) -> Force {
        let driven = stretch.at(self.input(speed));
        let gain = self.gear.gain(driven.input_torque < 0.0);
        // An input that holds back what cannot drive it passes nothing.
        let gain = if gain.is_nan() { 0.0 } else { gain };
        let torque = self.ratio.abs() * gain * driven.input_torque;
        Force {
            speed,
            force: torque / self.vehicle.lever(),
            driven,
            between: stretch.between(),
        }
    }

    /// Its stretches, with the road speeds that they are from and to.
    pub(super) fn stretches(&self) -> impl DoubleEndedIterator<Item = (&Stretch, f64, f64)> {
        let stretches = self.source.stretches().iter();
        stretches.map(|stretch| (stretch, self.speed(stretch.from), self.speed(stretch.to)))
    }

    /// Its course, from one point to the next, each part without a gap; with what a clutch that slips adds before it, or
    /// without.
    pub fn course(&self, with_slip: bool) -> Vec<Vec<Force>> {
        let mut parts: Vec<Vec<Force>> = Vec::new();
        let mut reached = f64::NAN;
        for (stretch, from, to) in self.stretches() {
            let pieces = match stretch.between() {
                Between::Slipping if !with_slip => continue,
                Between::Slipping | Between::Nothing => 1,
                Between::Converter => COURSE,
            };
            let points = (0..=pieces).map(|piece| {
                let part = f64::from(piece) / f64::from(pieces);
                self.on(stretch, from + (to - from) * part)
            });
            match parts.last_mut() {
                Some(part) if reached == from => part.extend(points),
                _ => parts.push(points.collect()),
            }
            reached = to;
        }
        parts
    }

    /// The road speeds that it has a force at: the lowest, and the highest, where the engine is at its last speed.
    pub fn reach(&self) -> Option<(f64, f64)> {
        let (_, first, _) = self.stretches().next()?;
        let (_, _, last) = self.stretches().next_back()?;
        Some((first, last))
    }

    /// The road speed that the engine can be brought to from another one, without a gap.
    pub(super) fn runs_to(&self, from: f64) -> Option<f64> {
        let mut reached = None;
        for (_, start, end) in self.stretches() {
            let goes_on = match reached {
                None => start <= from && from < end,
                Some(before) => start == before,
            };
            if goes_on {
                reached = Some(end);
            } else if reached.is_some() {
                break;
            }
        }
        reached
    }

    /// The first road speed from one to another at which force and level road are in balance.
    pub(super) fn balance(&self, from: f64, to: f64) -> Option<f64> {
        for (stretch, start, end) in self.stretches() {
            let (start, end) = (start.max(from), end.min(to));
            if start >= end {
                continue;
            }
            let excess = |speed: f64| {
                let (force, road) = (self.on(stretch, speed).force, self.vehicle.level(speed));
                relative(force - road, force.abs() + road.abs())
            };
            if excess(start) <= 0.0 {
                return Some(start);
            }
            if let Some(&speed) = roots::all(&excess, start, end).first() {
                return Some(speed);
            }
        }
        None
    }

    /// The fastest that it goes on the level; none where the road holds it back at every speed.
    pub fn top(&self) -> Option<Top> {
        for (at, (stretch, from, to)) in self.stretches().rev().enumerate() {
            let excess = |speed: f64| {
                let (force, road) = (self.on(stretch, speed).force, self.vehicle.level(speed));
                relative(force - road, force.abs() + road.abs())
            };
            let top = |speed, at_engine_limit| Top {
                at: self.on(stretch, speed),
                at_engine_limit,
            };
            if excess(to) > 0.0 {
                // Where another stretch follows, its force is too small from its beginning on.
                return Some(top(to, at == 0));
            }
            let roots = roots::all(&excess, from, to);
            if let Some(&speed) = roots.last() {
                return Some(top(speed, false));
            }
        }
        None
    }

    /// The steepest slope that it climbs; none without a weight.
    pub fn climb(&self) -> Option<Climb> {
        let weight = self.vehicle.weight();
        if weight <= 0.0 {
            return None;
        }
        let mut best: Option<(f64, Force)> = None;
        for (stretch, from, to) in self.stretches() {
            let spare = |speed: f64| self.on(stretch, speed).force - self.vehicle.level(speed);
            let speed = highest(&spare, from, to);
            let sine = spare(speed) / weight;
            if best.is_none_or(|(most, _)| sine > most) {
                best = Some((sine, self.on(stretch, speed)));
            }
        }
        best.map(|(sine, at)| Climb {
            slope: if sine < 1.0 {
                sine / (1.0 - sine * sine).sqrt()
            } else {
                f64::INFINITY
            },
            at,
        })
    }
}

/// A difference as a part of what it is between, so that its zero is known by its size.
pub(super) fn relative(difference: f64, size: f64) -> f64 {
    if size > 0.0 { difference / size } else { 0.0 }
}

/// Where a smooth function is highest.
fn highest(f: &dyn Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let at = |look: u32| from + (to - from) * f64::from(look) / f64::from(LOOKS);
    let best = (0..=LOOKS)
        .max_by(|&a, &b| f(at(a)).total_cmp(&f(at(b))))
        .unwrap_or(0);
    let (mut low, mut high) = (at(best.saturating_sub(1)), at((best + 1).min(LOOKS)));
    for _ in 0..NARROWINGS {
        let (a, b) = (low + GOLDEN * (high - low), high - GOLDEN * (high - low));
        if f(a) < f(b) {
            low = a;
        } else {
            high = b;
        }
    }
    // An end itself is where most are highest.
    [at(best), low, high, low + (high - low) / 2.0]
        .into_iter()
        .max_by(|&a, &b| f(a).total_cmp(&f(b)))
        .unwrap_or(from)
}
