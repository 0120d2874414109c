//! What tooth counts must satisfy before metal is cut: warnings, never errors.
//!
//! Standard gears without profile shift are assumed, lengths are in modules (pitch diameter =
//! tooth count, addendum = 1). A train that breaks a rule still computes: profile shift or
//! unequal spacing may make it buildable, so the warning names the rule and the numbers.
//! The rules are common practice (no single source); the coaxial one is also how the Modelica
//! Standard Library's `IdealPlanetary` derives its pinion teeth.

use std::f64::consts::PI;
use std::fmt;

use crate::coupling::Teeth;

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
pub(crate) fn coaxial(sun: Teeth, pinion: Teeth, ring: Teeth) -> Option<ToothWarning> {
    let wanted = sun.get() + 2 * pinion.get();
    if wanted == ring.get() {
        return None;
    }
    warn(
        Rule::Coaxial,
        format!(
            "sun {sun} + 2 × pinion {pinion} = {wanted}, but the ring has {ring}: \
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

/// (S + P)·sin(π/N) > P + 2: the tip circles of neighbours stay apart.
pub(crate) fn neighbours_clear(sun: Teeth, pinion: Teeth, count: u32) -> Option<ToothWarning> {
    // One pinion has no neighbour.
    if count < 2 {
        return None;
    }
    let distance = f64::from(sun.get() + pinion.get()) * (PI / f64::from(count)).sin();
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

/// Where the pins of a double-pinion set stand, in modules and radians.
pub(crate) struct DoublePins {
    /// Axis to inner pin.
    pub inner: f64,
    /// Axis to outer pin.
    pub outer: f64,
    /// Inner pin to outer pin.
    pub between: f64,
    /// Angle at the axis between them, where they reach.
    pub angle: Option<f64>,
    /// Teeth of the inner pinion.
    pub inner_teeth: Teeth,
    /// Teeth of the outer pinion.
    pub outer_teeth: Teeth,
}

/// The three centre distances make a triangle.
pub(crate) fn pins_reach(pins: &DoublePins) -> Option<ToothWarning> {
    if pins.angle.is_some() {
        return None;
    }
    let DoublePins {
        inner,
        outer,
        between,
        ..
    } = pins;
    warn(
        Rule::Coaxial,
        format!(
            "centre distances {inner}, {outer} and {between} modules make no triangle: \
             inner and outer pinions cannot mesh"
        ),
    )
}

/// No pinion touches one of the next pair around the axis, nor one of its own row.
pub(crate) fn double_neighbours_clear(pins: &DoublePins, count: u32) -> Option<ToothWarning> {
    let angle = pins.angle?;
    if count < 2 {
        return None;
    }
    let step = 2.0 * PI / f64::from(count);
    let (inner_teeth, outer_teeth) = (pins.inner_teeth.get(), pins.outer_teeth.get());
    let apart = |a: f64, b: f64, by: f64| (a * a + b * b - 2.0 * a * b * by.cos()).sqrt();
    // (what, distance of the pins, sum of the tip radii)
    let pairs = [
        (
            "inner pinions",
            apart(pins.inner, pins.inner, step),
            f64::from(inner_teeth + 2),
        ),
        (
            "outer pinions",
            apart(pins.outer, pins.outer, step),
            f64::from(outer_teeth + 2),
        ),
        (
            "an outer pinion and the next inner one",
            apart(pins.inner, pins.outer, step - angle),
            f64::from(inner_teeth + outer_teeth) / 2.0 + 2.0,
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
