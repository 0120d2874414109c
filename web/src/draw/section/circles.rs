//! Pitch circles of the gears of a set, and the room they need.

use levertrain_core::coupling::{Mount, Partner, Plane, Profile, ProfileGear};

use super::parts::Figure;

/// Thickness of a ring, and how far it may reach beyond its row.
pub const RIM: f64 = 19.0;
const BEYOND: f64 = 9.0;
/// From the rings' row to the pitch circle of the largest rings, to the largest step of a pinion, and
/// to the outermost gear of a pair.
pub const RING: f64 = BEYOND - RIM;
const STEP: f64 = -8.0;
pub const GEAR: f64 = BEYOND;
/// What is left of long pinions beyond short ones, at least.
const STRIP: f64 = 6.0;

/// A pitch circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// Its centre above the main axis; below it if negative.
    pub centre: f64,
    /// Its radius.
    pub radius: f64,
}

impl Circle {
    /// The circle about a centre.
    pub const fn new(centre: f64, radius: f64) -> Self {
        Self { centre, radius }
    }

    /// The circle from one distance to another.
    const fn between(from: f64, to: f64) -> Self {
        Self::new((from + to) / 2.0, (to - from) / 2.0)
    }

    /// Its farthest point above the main axis.
    pub const fn top(self) -> f64 {
        self.centre + self.radius
    }
}

/// How lengths in modules become distances.
#[derive(Debug, Clone, Copy)]
pub struct Scale {
    /// What no length becomes.
    pub zero: f64,
    /// How much a module adds.
    pub module: f64,
}

impl Scale {
    fn of(self, length: f64) -> f64 {
        self.zero + self.module * length
    }
}

/// What a coupling needs; lengths in modules.
#[derive(Debug, Clone)]
pub struct Need {
    /// The least distance from the main axis, which must clear the shafts inside.
    pub least: f64,
    /// The greatest, each with the room from the rings' row to there in CSS pixels.
    pub most: Vec<(f64, f64)>,
    /// Whether it is a gear that surrounds another about an axis of its own.
    pub surrounds: bool,
}

impl Need {
    /// The greatest module that fits when the rings' row is at a distance.
    pub fn module(&self, rings: f64) -> f64 {
        let modules = self.most.iter().map(|&(most, room)| (rings + room) / most);
        modules.fold(f64::INFINITY, f64::min)
    }

    /// Where the rings' row must be for a module.
    pub fn rings(&self, module: f64) -> f64 {
        let rows = self.most.iter().map(|&(most, room)| most * module - room);
        rows.fold(0.0, f64::max)
    }

    /// How it fills the room with a module: in proportion, unless it would not clear what is inside.
    pub fn scale(&self, inside: f64, module: f64) -> Scale {
        if module * self.least >= inside {
            return Scale { zero: 0.0, module };
        }
        let most = self.most.iter().map(|&(most, _)| most);
        let most = most.fold(self.least + 0.5, f64::max);
        let squeezed = ((module * most - inside) / (most - self.least)).max(0.0);
        Scale {
            zero: inside - squeezed * self.least,
            module: squeezed,
        }
    }
}

/// Pitch radius in modules.
pub fn radius(gear: &ProfileGear) -> f64 {
    f64::from(gear.teeth.get()) / 2.0
}

const fn is_pinion(gear: &ProfileGear) -> bool {
    matches!(gear.mount, Mount::Pinion { .. })
}

/// Stepped pinions and their mates.
struct Steps<'a> {
    /// The mate of the first step, and that step.
    first: [&'a ProfileGear; 2],
    /// The other step and its mate.
    second: [&'a ProfileGear; 2],
}

impl<'a> Steps<'a> {
    fn of(profile: &'a Profile) -> Option<Self> {
        let gears = &profile.gears;
        let (at, second) = gears
            .iter()
            .enumerate()
            .find(|(_, gear)| matches!(gear.partner, Some(Partner::Fixed(_))))?;
        let Some(Partner::Fixed(step)) = second.partner else {
            return None;
        };
        let step = gears.get(step)?;
        let Some(Partner::Meshes(mate)) = step.partner else {
            return None;
        };
        let meets = |gear: &&ProfileGear| gear.partner == Some(Partner::Meshes(at));
        Some(Self {
            first: [gears.get(mate)?, step],
            second: [second, gears.iter().find(meets)?],
        })
    }

    /// Where the pins are, by the first step.
    fn centre(&self) -> f64 {
        radius(self.first[0]) + radius(self.first[1])
    }

    /// Modules of the first step in one of the other: both are on one pin.
    fn module(&self) -> f64 {
        let [step, mate] = self.second.map(radius);
        let centre = if self.second[1].internal {
            mate - step
        } else {
            mate + step
        };
        self.centre() / centre.max(0.5)
    }
}

/// What a set needs.
pub fn need_of_set(profile: &Profile, figure: Figure) -> Need {
    let members = profile.gears.iter().filter(|gear| !is_pinion(gear));
    let (rings, suns): (Vec<_>, Vec<_>) = members.partition(|gear| gear.internal);
    let mut least = suns.into_iter().map(radius).fold(f64::INFINITY, f64::min);
    let mut most: Vec<(f64, f64)> = rings.into_iter().map(|gear| (radius(gear), RING)).collect();
    if let (Figure::Stepped { .. }, Some(steps)) = (figure, Steps::of(profile)) {
        let (centre, module) = (steps.centre(), steps.module());
        let first = radius(steps.first[1]);
        let [second, mate] = steps.second.map(|gear| radius(gear) * module);
        // The inside of the larger step passes over the other one's sun.
        least = least.min(centre - second).max(1.0);
        most = vec![(centre + first, STEP)];
        most.push(match steps.second[1].internal {
            true => (mate, RING),
            false => (centre + second, STEP),
        });
    }
    Need {
        least,
        most,
        surrounds: false,
    }
}

/// The pitch circles of a set.
pub fn set_circles(profile: &Profile, figure: Figure, scale: Scale) -> Vec<Circle> {
    let gears = &profile.gears;
    let about_axis = |gear: &ProfileGear| Circle::new(0.0, scale.of(radius(gear)));
    let of = |wanted: &dyn Fn(&&ProfileGear) -> bool| {
        let found = gears.iter().find(wanted);
        found.map_or(0.0, |gear| scale.of(radius(gear)))
    };
    let ring = of(&|gear| gear.internal);
    match figure {
        Figure::Stepped { .. } => {
            let Some(steps) = Steps::of(profile) else {
                return gears.iter().map(about_axis).collect();
            };
            let centre = scale.of(steps.centre());
            let module = scale.module * steps.module();
            let step = radius(steps.second[0]) * module;
            let circle = |gear: &ProfileGear| match gear {
                _ if gear == steps.first[1] => Circle::new(centre, radius(gear) * scale.module),
                _ if gear == steps.second[0] => Circle::new(centre, step),
                _ if gear == steps.second[1] && gear.internal => Circle::new(0.0, centre + step),
                _ if gear == steps.second[1] => Circle::new(0.0, centre - step),
                _ => about_axis(gear),
            };
            gears.iter().map(circle).collect()
        }
        Figure::TwoSuns { .. } => {
            let small = of(&|gear| !is_pinion(gear) && gear.plane == Plane::Near);
            let large = of(&|gear| !is_pinion(gear) && gear.plane == Plane::Far);
            let circle = |gear: &ProfileGear| match gear {
                _ if !is_pinion(gear) => about_axis(gear),
                _ if gear.plane == Plane::Whole => Circle::between(large, ring),
                // The short pinions lie before the long ones, as far from the axis as they are.
                _ => {
                    let top = small + 2.0 * radius(gear) * scale.module;
                    Circle::between(small, top.min(ring - STRIP))
                }
            };
            gears.iter().map(circle).collect()
        }
        Figure::Set | Figure::Pair { .. } => {
            // Pinions in series turn about pins side by side; seen from here they would hide one
            // another, so they share the room as their teeth do.
            let sun = of(&|gear| !is_pinion(gear) && !gear.internal);
            let pinions = gears.iter().filter(|gear| is_pinion(gear));
            let all: f64 = pinions.map(radius).sum();
            let mut edge = sun;
            let circle = |gear: &ProfileGear| {
                if !is_pinion(gear) {
                    return about_axis(gear);
                }
                let inner = edge;
                edge += (ring - sun) * radius(gear) / all;
                Circle::between(inner, edge)
            };
            gears.iter().map(circle).collect()
        }
    }
}
