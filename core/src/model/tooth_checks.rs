//! What tooth counts must satisfy before metal is cut: warnings, never errors.
//!
//! Standard gears without profile shift are assumed, lengths are in modules (pitch diameter =
//! tooth count, addendum = 1). A train that breaks a rule still computes: profile shift or
//! unequal spacing may make it buildable, so the warning names the rule and the numbers.
//! The rules are common practice (no single source); the coaxial one is also how the Modelica
//! Standard Library's `IdealPlanetary` derives its pinion teeth.

use std::f64::consts::PI;
use std::fmt;

use num_integer::Integer as _;

use crate::base::sine::sin_cos;
use crate::model::coupling::Teeth;

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

/// A rule that a coupling's tooth counts do not satisfy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToothWarning {
    /// The rule.
    pub rule: Rule,
    /// The rule with the numbers in it, as a sentence.
    pub text: String,
}

impl fmt::Display for ToothWarning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

fn warn(rule: Rule, text: String) -> Option<ToothWarning> {
    Some(ToothWarning { rule, text })
}

/// R = S + 2P.
pub(crate) fn coaxial(
    sun_name: &str,
    sun: Teeth,
    pinion_name: &str,
    pinion: Teeth,
    ring: Teeth,
) -> Option<ToothWarning> {
    let wanted = sun.get() + 2 * pinion.get();
    if wanted == ring.get() {
        return None;
    }
    warn(
        Rule::Coaxial,
        format!(
            "{sun_name} {sun} + 2 × {pinion_name} {pinion} = {wanted}, but the ring has {ring}: \
             the gears need profile shift to share one axis"
        ),
    )
}

/// `teeth` / `count` is a whole number; `name` says which sum or difference `teeth` is.
pub(crate) fn equal_spacing(teeth: u32, name: &str, count: u32) -> Option<ToothWarning> {
    if teeth.is_multiple_of(count) {
        return None;
    }
    warn(
        Rule::EqualSpacing,
        format!(
            "{name} = {teeth} is not a multiple of {count}: \
             {count} pinions cannot be put in at equal angles"
        ),
    )
}

/// S·Q + R·P is a multiple of N·gcd(P, Q): stepped pinions, all cut alike, mesh at N equal
/// angles. P meshes with the sun and Q with the ring.
///
/// Derived: let a pinion stand Δφ around the axis from another and be turned by Δψ against it.
/// Its teeth meet those of the sun where (S + P)·Δφ − P·Δψ is a whole number of turns, those of
/// the ring where (R − Q)·Δφ + Q·Δψ is. Some Δψ does both just when (S·Q + R·P)·Δφ = m·Q + n·P
/// turns for whole m and n, which are the multiples of gcd(P, Q). With P = Q that is the rule
/// for plain pinions, S + R a multiple of N.
pub(crate) fn stepped_equal_spacing(
    [sun, sun_pinion, ring_pinion, ring]: [Teeth; 4],
    count: u32,
) -> Option<ToothWarning> {
    let total = sun.get() * ring_pinion.get() + ring.get() * sun_pinion.get();
    let common = sun_pinion.get().gcd(&ring_pinion.get());
    let step = count * common;
    if total.is_multiple_of(step) {
        return None;
    }
    warn(
        Rule::EqualSpacing,
        format!(
            "sun {sun} × ring pinion {ring_pinion} + ring {ring} × sun pinion {sun_pinion} = \
             {total} is not a multiple of {step} ({count} pinions × {common}, the greatest common \
             divisor of their steps): stepped pinions cut alike cannot be put in at equal angles"
        ),
    )
}

/// Sa·Q − Sb·P is a multiple of N·gcd(P, Q): stepped pinions on two suns, all cut alike, mesh at
/// N equal angles.
///
/// Derived as for a ring ([`stepped_equal_spacing`]): (Sa + P)·Δφ − P·Δψ and
/// (Sb + Q)·Δφ − Q·Δψ must both be whole.
pub(crate) fn suns_equal_spacing(
    [first, p, q, second]: [Teeth; 4],
    count: u32,
) -> Option<ToothWarning> {
    let (left, right) = (first.get() * q.get(), second.get() * p.get());
    let common = p.get().gcd(&q.get());
    let step = count * common;
    if left.abs_diff(right).is_multiple_of(step) {
        return None;
    }
    warn(
        Rule::EqualSpacing,
        format!(
            "first sun {first} × second pinion {q} = {left} and second sun {second} × first \
             pinion {p} = {right} do not differ by a multiple of {step} ({count} pinions × \
             {common}, the greatest common divisor of their steps): stepped pinions cut alike \
             cannot be put in at equal angles"
        ),
    )
}

/// Sa + P = Sb + Q: the pins are as far from one sun's axis as from the other's.
pub(crate) fn suns_coaxial([first, p, q, second]: [Teeth; 4]) -> Option<ToothWarning> {
    let (left, right) = (first.get() + p.get(), second.get() + q.get());
    if left == right {
        return None;
    }
    warn(
        Rule::Coaxial,
        format!(
            "first sun {first} + first pinion {p} = {left}, but second sun {second} + second \
             pinion {q} = {right}: with one module for both steps the gears need profile shift \
             to share one axis"
        ),
    )
}

/// S + P = R − Q: the pins of stepped pinions are as far from the sun's axis as from the ring's.
pub(crate) fn stepped_coaxial(
    [sun, sun_pinion, ring_pinion, ring]: [Teeth; 4],
) -> Option<ToothWarning> {
    let inside = sun.get() + sun_pinion.get();
    let outside = i64::from(ring.get()) - i64::from(ring_pinion.get());
    if i64::from(inside) == outside {
        return None;
    }
    warn(
        Rule::Coaxial,
        format!(
            "sun {sun} + sun pinion {sun_pinion} = {inside}, but ring {ring} − ring pinion \
             {ring_pinion} = {}: with one module for both steps the gears need profile shift to \
             share one axis",
            crate::base::number::number(outside as f64, 3)
        ),
    )
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
    if distance > needed {
        return None;
    }
    warn(
        Rule::NeighboursClear,
        format!(
            "{count} pinions of {pinion} teeth stand {distance:.1} modules apart \
             and need more than {needed}: neighbours touch"
        ),
    )
}

/// Sb > Sa + 4: long pinions on the large sun pass the tips of the small sun beside it, at the
/// distance (Sb + L)/2 > (Sa + L)/2 + 2.
pub(crate) fn long_pinion_passes(small: Teeth, large: Teeth) -> Option<ToothWarning> {
    if large.get() > small.get() + 4 {
        return None;
    }
    warn(
        Rule::NeighboursClear,
        format!(
            "the large sun has {large} teeth and needs more than {} (small sun {small} + 4): \
             the long pinions touch the small sun",
            small.get() + 4
        ),
    )
}

/// At least [`FEWEST_TEETH`].
pub(crate) fn fewest_teeth(name: &str, teeth: Teeth) -> Option<ToothWarning> {
    if teeth.get() >= FEWEST_TEETH {
        return None;
    }
    warn(
        Rule::FewestTeeth,
        format!("the {name} has {teeth} teeth, fewer than the usual least of {FEWEST_TEETH}"),
    )
}

/// The inner gear of an internal pair is smaller than the gear around it.
pub(crate) fn fits_inside(first: Teeth, second: Teeth) -> Option<ToothWarning> {
    if first < second {
        return None;
    }
    warn(
        Rule::Coaxial,
        format!(
            "the first gear with {first} teeth does not fit inside the internal one with {second}"
        ),
    )
}

/// Where the pins of pinions that mesh in pairs stand.
pub(crate) struct PinTriangle {
    /// What the two kinds are called.
    pub names: [&'static str; 2],
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
    let ([a, b], c, [first, second]) = (pins.radii, pins.between(), pins.names);
    warn(
        Rule::Coaxial,
        format!(
            "centre distances {a}, {b} and {c} modules make no triangle: \
             {first} and {second} pinions cannot mesh"
        ),
    )
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
    // (what, distance of the pins, sum of the tip radii)
    let pairs = [
        (
            format!("{first} pinions"),
            apart(a, a, step),
            f64::from(first_teeth + 2),
        ),
        (
            format!("{second} pinions"),
            apart(b, b, step),
            f64::from(second_teeth + 2),
        ),
        (
            format!("{} pinion and the next {first} one", indefinite(second)),
            apart(a, b, step - angle),
            f64::from(first_teeth + second_teeth) / 2.0 + 2.0,
        ),
    ];
    let (what, distance, needed) = pairs
        .into_iter()
        .find(|(_, distance, needed)| distance <= needed)?;
    warn(
        Rule::NeighboursClear,
        format!("{what} stand {distance:.1} modules apart and need more than {needed}: they touch"),
    )
}

/// "an outer", "a long".
fn indefinite(name: &str) -> String {
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) {
        "an"
    } else {
        "a"
    };
    format!("{article} {name}")
}
