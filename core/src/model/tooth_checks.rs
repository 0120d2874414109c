//! What tooth counts must satisfy before metal is cut: warnings, never errors.
//!
//! Standard gears without profile shift are assumed, lengths are in modules (pitch diameter =
//! tooth count, addendum = 1). A train that breaks a rule still computes: profile shift or
//! unequal spacing may make it buildable, so the warning names the rule and the numbers.
//! The rules are common practice (no single source); the coaxial one is also how the Modelica
//! Standard Library's `IdealPlanetary` derives its pinion teeth.

use std::f64::consts::PI;

use num_integer::Integer as _;

use crate::base::sine::sin_cos;
use crate::model::coupling::{GearName, PinionName, Role, Teeth};

/// Fewest teeth before standard 20° gears are usually undercut too far (common practice, no
/// source: 17 without undercut, 12 is in wide use with profile shift).
pub const FEWEST_TEETH: u32 = 12;

/// Which rule a tooth warning is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Ring = sun + 2 · pinion, or pins that can reach both sun and ring.
    Coaxial,
    /// Equal pinions can be put in at equal angles.
    EqualSpacing,
    /// Neighbouring pinions do not touch.
    NeighboursClear,
    /// A gear has too few teeth.
    FewestTeeth,
}

/// A rule that a coupling's tooth counts do not satisfy, with the numbers that break it.
/// Distances are in modules.
#[derive(Debug, Clone, PartialEq)]
pub enum ToothWarning {
    /// R is not S + 2P.
    NotCoaxial {
        /// Which sun, with its teeth.
        sun: (Role, Teeth),
        /// Which pinion, with its teeth.
        pinion: (PinionName, Teeth),
        /// Teeth of the ring.
        ring: Teeth,
        /// Teeth that the ring should have.
        wanted: u32,
    },
    /// A sum or difference of teeth is not a multiple of the pinions.
    UnequalSpacing {
        /// Which, in letters.
        sum: &'static str,
        /// What it is.
        teeth: u32,
        /// How many pinions.
        count: u32,
    },
    /// S·Q + R·P is not a multiple of the step.
    SteppedSpacing {
        /// Those of sun, sun pinion, ring pinion and ring.
        teeth: [Teeth; 4],
        /// S·Q + R·P.
        total: u32,
        /// The step, pinions times common divisor.
        step: Step,
    },
    /// Sa·Q and Sb·P do not differ by a multiple of the step.
    SunsSpacing {
        /// Those of first sun, first pinion, second pinion and second sun.
        teeth: [Teeth; 4],
        /// Sa·Q and Sb·P.
        products: [u32; 2],
        /// The step, pinions times common divisor.
        step: Step,
    },
    /// Sa + P is not Sb + Q.
    SunsNotCoaxial {
        /// Those of first sun, first pinion, second pinion and second sun.
        teeth: [Teeth; 4],
        /// Sa + P and Sb + Q.
        sums: [u32; 2],
    },
    /// S + P is not R − Q.
    SteppedNotCoaxial {
        /// Those of sun, sun pinion, ring pinion and ring.
        teeth: [Teeth; 4],
        /// S + P.
        inside: u32,
        /// R − Q.
        outside: i64,
    },
    /// Pinions side by side touch.
    NeighboursTouch {
        /// How many there are.
        count: u32,
        /// Teeth of each.
        pinion: Teeth,
        /// Distance of their pins.
        distance: f64,
        /// What that must be above.
        needed: f64,
    },
    /// Pinions of pairs touch.
    PairsTouch {
        /// Which.
        touching: Touching,
        /// Distance of their pins.
        distance: f64,
        /// What that must be above.
        needed: f64,
    },
    /// Long pinions touch the small sun.
    LongPinionTouches {
        /// Teeth of the small sun.
        small: Teeth,
        /// Teeth of the large sun.
        large: Teeth,
        /// What those must be above.
        needed: u32,
    },
    /// A gear has few teeth.
    FewTeeth {
        /// Which gear.
        gear: GearName,
        /// Its teeth.
        teeth: Teeth,
    },
    /// The inner gear of a pair is too large for the one around it.
    DoesNotFit {
        /// Teeth of the inner gear.
        first: Teeth,
        /// Teeth of the one around it.
        second: Teeth,
    },
    /// Pinions that should mesh in pairs are too far apart or too near.
    PinsDoNotReach {
        /// The first kind of pinion; the other follows from it.
        first: PinionName,
        /// Distance of each pin from the axis.
        radii: [f64; 2],
        /// Distance of the pins of a pair.
        between: f64,
    },
}

impl ToothWarning {
    /// The rule.
    pub const fn rule(&self) -> Rule {
        match self {
            Self::NotCoaxial { .. }
            | Self::SunsNotCoaxial { .. }
            | Self::SteppedNotCoaxial { .. }
            | Self::DoesNotFit { .. }
            | Self::PinsDoNotReach { .. } => Rule::Coaxial,
            Self::UnequalSpacing { .. }
            | Self::SteppedSpacing { .. }
            | Self::SunsSpacing { .. } => Rule::EqualSpacing,
            Self::NeighboursTouch { .. }
            | Self::PairsTouch { .. }
            | Self::LongPinionTouches { .. } => Rule::NeighboursClear,
            Self::FewTeeth { .. } => Rule::FewestTeeth,
        }
    }
}

/// What stepped pinions must be put in by, to stand at equal angles.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// How many pinions there are.
    pub count: u32,
    /// The greatest common divisor of their steps.
    pub common: u32,
}

impl Step {
    fn of(count: u32, p: Teeth, q: Teeth) -> Self {
        let common = p.get().gcd(&q.get());
        Self { count, common }
    }

    /// Their product.
    pub const fn product(self) -> u32 {
        self.count * self.common
    }
}

/// Which pinions of pairs touch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Touching {
    /// Those of one kind.
    Row(PinionName),
    /// One of this kind and the next of the other.
    Next(PinionName),
}

/// R = S + 2P.
pub(crate) fn coaxial(
    sun: (Role, Teeth),
    pinion: (PinionName, Teeth),
    ring: Teeth,
) -> Option<ToothWarning> {
    let wanted = sun.1.get() + 2 * pinion.1.get();
    (wanted != ring.get()).then_some(ToothWarning::NotCoaxial {
        sun,
        pinion,
        ring,
        wanted,
    })
}

/// `teeth` / `count` is a whole number; `sum` says which sum or difference `teeth` is.
pub(crate) fn equal_spacing(teeth: u32, sum: &'static str, count: u32) -> Option<ToothWarning> {
    (!teeth.is_multiple_of(count)).then_some(ToothWarning::UnequalSpacing { sum, teeth, count })
}

/// S·Q + R·P is a multiple of N·gcd(P, Q): stepped pinions, all cut alike, mesh at N equal
/// angles. P meshes with the sun and Q with the ring.
///
/// Derived: let a pinion stand Δφ around the axis from another and be turned by Δψ against it.
/// Its teeth meet those of the sun where (S + P)·Δφ − P·Δψ is a whole number of turns, those of
/// the ring where (R − Q)·Δφ + Q·Δψ is. Some Δψ does both just when (S·Q + R·P)·Δφ = m·Q + n·P
/// turns for whole m and n, which are the multiples of gcd(P, Q). With P = Q that is the rule
/// for plain pinions, S + R a multiple of N.
pub(crate) fn stepped_equal_spacing(teeth: [Teeth; 4], count: u32) -> Option<ToothWarning> {
    let [sun, sun_pinion, ring_pinion, ring] = teeth;
    let total = sun.get() * ring_pinion.get() + ring.get() * sun_pinion.get();
    let step = Step::of(count, sun_pinion, ring_pinion);
    (!total.is_multiple_of(step.product())).then_some(ToothWarning::SteppedSpacing {
        teeth,
        total,
        step,
    })
}

/// Sa·Q − Sb·P is a multiple of N·gcd(P, Q): stepped pinions on two suns, all cut alike, mesh at
/// N equal angles.
///
/// Derived as for a ring ([`stepped_equal_spacing`]): (Sa + P)·Δφ − P·Δψ and
/// (Sb + Q)·Δφ − Q·Δψ must both be whole.
pub(crate) fn suns_equal_spacing(teeth: [Teeth; 4], count: u32) -> Option<ToothWarning> {
    let [first, p, q, second] = teeth;
    let (left, right) = (first.get() * q.get(), second.get() * p.get());
    let step = Step::of(count, p, q);
    let fits = left.abs_diff(right).is_multiple_of(step.product());
    (!fits).then_some(ToothWarning::SunsSpacing {
        teeth,
        products: [left, right],
        step,
    })
}

/// Sa + P = Sb + Q: the pins are as far from one sun's axis as from the other's.
pub(crate) fn suns_coaxial(teeth: [Teeth; 4]) -> Option<ToothWarning> {
    let [first, p, q, second] = teeth;
    let sums = [first.get() + p.get(), second.get() + q.get()];
    (sums[0] != sums[1]).then_some(ToothWarning::SunsNotCoaxial { teeth, sums })
}

/// S + P = R − Q: the pins of stepped pinions are as far from the sun's axis as from the ring's.
pub(crate) fn stepped_coaxial(teeth: [Teeth; 4]) -> Option<ToothWarning> {
    let [sun, sun_pinion, ring_pinion, ring] = teeth;
    let inside = sun.get() + sun_pinion.get();
    let outside = i64::from(ring.get()) - i64::from(ring_pinion.get());
    (i64::from(inside) != outside).then_some(ToothWarning::SteppedNotCoaxial {
        teeth,
        inside,
        outside,
    })
}

/// D·sin(π/N) > P + 2 with pins on a circle of diameter D: the tip circles of neighbours stay
/// apart. `pinion` is the larger step where there are two.
pub(crate) fn neighbours_clear(diameter: u32, pinion: Teeth, count: u32) -> Option<ToothWarning> {
    // One pinion has no neighbour.
    if count < 2 {
        return None;
    }
    let distance = f64::from(diameter) * sin_cos(PI / f64::from(count)).0;
    let needed = f64::from(pinion.get() + 2);
    (distance <= needed).then_some(ToothWarning::NeighboursTouch {
        count,
        pinion,
        distance,
        needed,
    })
}

/// Sb > Sa + 4: long pinions on the large sun pass the tips of the small sun beside it, at the
/// distance (Sb + L)/2 > (Sa + L)/2 + 2.
pub(crate) fn long_pinion_passes(small: Teeth, large: Teeth) -> Option<ToothWarning> {
    let needed = small.get() + 4;
    (large.get() <= needed).then_some(ToothWarning::LongPinionTouches {
        small,
        large,
        needed,
    })
}

/// At least [`FEWEST_TEETH`].
pub(crate) fn fewest_teeth(gear: impl Into<GearName>, teeth: Teeth) -> Option<ToothWarning> {
    (teeth.get() < FEWEST_TEETH).then_some(ToothWarning::FewTeeth {
        gear: gear.into(),
        teeth,
    })
}

/// The inner gear of an internal pair is smaller than the gear around it.
pub(crate) fn fits_inside(first: Teeth, second: Teeth) -> Option<ToothWarning> {
    (first >= second).then_some(ToothWarning::DoesNotFit { first, second })
}

/// Where the pins of pinions that mesh in pairs stand.
pub(crate) struct PinTriangle {
    /// What the two kinds are called.
    pub names: [PinionName; 2],
    /// Distance of each pin from the axis, in modules.
    pub radii: [f64; 2],
    /// Teeth of each pinion.
    pub teeth: [Teeth; 2],
}

impl PinTriangle {
    /// Distance of the pins of a pair from each other, in modules.
    fn between(&self) -> f64 {
        let [first, second] = self.teeth.map(|teeth| f64::from(teeth.get()));
        (first + second) / 2.0
    }

    /// Angle at the axis between the pins of a pair, in radians; `None` when the three centre
    /// distances make no triangle.
    pub(crate) fn angle(&self) -> Option<f64> {
        let ([a, b], c) = (self.radii, self.between());
        let cosine = (a * a + b * b - c * c) / (2.0 * a * b);
        (a > 0.0 && b > 0.0 && cosine.abs() <= 1.0).then(|| cosine.acos())
    }
}

/// The three centre distances make a triangle.
pub(crate) fn pins_reach(pins: &PinTriangle) -> Option<ToothWarning> {
    if pins.angle().is_some() {
        return None;
    }
    Some(ToothWarning::PinsDoNotReach {
        first: pins.names[0],
        radii: pins.radii,
        between: pins.between(),
    })
}

/// No pinion touches one of the next pair around the axis, nor one of its own row.
pub(crate) fn double_neighbours_clear(pins: &PinTriangle, count: u32) -> Option<ToothWarning> {
    let angle = pins.angle()?;
    if count < 2 {
        return None;
    }
    let step = 2.0 * PI / f64::from(count);
    let ([first, second], [a, b]) = (pins.names, pins.radii);
    let [first_teeth, second_teeth] = pins.teeth.map(Teeth::get);
    let apart = |a: f64, b: f64, by: f64| (a * a + b * b - 2.0 * a * b * sin_cos(by).1).sqrt();
    // (which, distance of the pins, sum of the tip radii)
    let pairs = [
        (
            Touching::Row(first),
            apart(a, a, step),
            f64::from(first_teeth + 2),
        ),
        (
            Touching::Row(second),
            apart(b, b, step),
            f64::from(second_teeth + 2),
        ),
        (
            Touching::Next(second),
            apart(a, b, step - angle),
            f64::from(first_teeth + second_teeth) / 2.0 + 2.0,
        ),
    ];
    let (touching, distance, needed) = pairs
        .into_iter()
        .find(|(_, distance, needed)| distance <= needed)?;
    Some(ToothWarning::PairsTouch {
        touching,
        distance,
        needed,
    })
}
