//! Suns, pinions, carriers, rings and gear pairs in half-section: which gears and pins there are, and where.

use levertrain_core::Body;
use levertrain_core::coupling::{CouplingKind, PinionSpin, Role, Teeth};
use levertrain_core::words::said;

use super::gear::{Gear, named};
use super::lettering::Lettering;
use super::outlines::{CARRIER_SIDE, part_area, pinion_faces};
use super::parts::{Level, Part};
use super::stage::Stage;
use super::wires::SHAFT;
use crate::draw::scene::{Bounds, Ink, Scene, Stroke, at};
use crate::motion::live::Live;

/// A gear's outline and what it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Its outline.
    pub area: Bounds,
    /// The body that makes it move; for a pinion, its carrier.
    pub body: Body,
}

/// The outlines of the gears of a coupling's members, for hit testing.
pub fn faces<'s>(stage: &'s Stage<'_>) -> impl Iterator<Item = Face> + 's {
    stage.plan().parts.iter().map(move |part| Face {
        area: part_area(stage, part),
        body: part.body,
    })
}

/// The box that a coupling fills with everything drawn of it.
pub fn outline(stage: &Stage<'_>, coupling: usize) -> Option<Bounds> {
    // A carrier's sides, the axis of a gear on one of its own.
    const RIM: f64 = 2.0;
    const OWN_AXIS: f64 = 12.0;
    let facts = stage.train().scenario().couplings[coupling].facts();
    let parts = || {
        stage
            .plan()
            .parts
            .iter()
            .filter(|part| part.coupling == coupling)
    };
    let pinions = pinion_faces(stage, coupling, facts)
        .into_iter()
        .map(|face| {
            let height = face.area.height.max(2.0 * CARRIER_SIDE);
            let top = face.area.middle().y - height / 2.0;
            Bounds {
                top,
                height,
                ..face.area
            }
        });
    let gears = parts().map(|part| part_area(stage, part));
    let whole = gears.chain(pinions).reduce(|one, other| {
        let (left, top) = (one.left.min(other.left), one.top.min(other.top));
        let right = (one.left + one.width).max(other.left + other.width);
        let bottom = (one.top + one.height).max(other.top + other.height);
        Bounds {
            left,
            top,
            width: right - left,
            height: bottom - top,
        }
    })?;
    let mut rim = RIM;
    if !facts.profile().coaxial {
        rim = rim.max(OWN_AXIS);
    }
    Some(Bounds {
        left: whole.left - rim,
        top: whole.top - RIM,
        width: whole.width + 2.0 * rim,
        height: whole.height + 2.0 * RIM,
    })
}

/// Draws every coupling, its names in letters `letters` times as large as usual.
pub fn draw(scene: &mut Scene, stage: &Stage<'_>, live: &Live<'_>, letters: impl Lettering) {
    for (index, coupling) in live.train.scenario().couplings.iter().enumerate() {
        let facts = coupling.facts();
        let parts = || {
            let all = stage.plan().parts.iter();
            all.filter(|part| part.coupling == index)
        };
        // Large letters stand out of their gears, and nothing is drawn over them.
        if letters.is_large() {
            for part in parts().filter(|part| is_carrier(facts, part)) {
                draw_part(scene, stage, live, facts, (part, letters));
            }
        }
        for part in parts() {
            if !letters.is_large() || !is_carrier(facts, part) {
                draw_part(scene, stage, live, facts, (part, letters));
            }
        }
    }
}

fn is_carrier(facts: &dyn CouplingKind, part: &Part) -> bool {
    facts.members()[part.member].role == Role::Carrier
}

fn draw_part(
    scene: &mut Scene,
    stage: &Stage<'_>,
    live: &Live<'_>,
    facts: &dyn CouplingKind,
    (part, letters): (&Part, impl Lettering),
) {
    let members = facts.members();
    let member = &members[part.member];
    if member.role == Role::Carrier {
        draw_carrier(scene, stage, live, facts, (part, letters));
        return;
    }
    let Some(teeth) = member.teeth else { return };
    let turned = live.angle(part.body) * turns_to_teeth(teeth);
    gear(stage, (part, turned), (member.role, teeth), letters).draw(scene, live, letters);
}

/// The gear of a member that has turned so many teeth.
fn gear(
    stage: &Stage<'_>,
    (part, turned): (&Part, f64),
    (role, teeth): (Role, Teeth),
    letters: impl Lettering,
) -> Gear {
    let area = part_area(stage, part);
    Gear {
        area,
        clear: area,
        narrowest: area.width - stage.widened(part.coupling, area.width),
        body: part.body,
        turned,
        names: if role.is_of_set() {
            named(role.letter(), teeth, letters)
        } else {
            let number = teeth.to_string();
            vec![said("gear-teeth", &[("teeth", &number)]), number]
        },
        // The upper gear of a pair turns on its own axis, which the drawing must show.
        own_axis: part.level == Level::Pin,
        pinion: false,
    }
}

/// The teeth of a pair of gears one of which is too small to say its own in such letters.
pub fn untold(stage: &Stage<'_>, index: usize, letters: impl Lettering) -> Option<String> {
    let facts = stage.train().scenario().couplings[index].facts();
    let members = facts.members();
    let own = stage.plan().parts.iter();
    let is_short = own.filter(|part| part.coupling == index).any(|part| {
        let (role, teeth) = (members[part.member].role, members[part.member].teeth);
        let teeth = teeth.filter(|_| !role.is_of_set());
        teeth.is_some_and(|teeth| {
            let gear = gear(stage, (part, 0.0), (role, teeth), letters);
            gear.said(letters).is_none()
        })
    });
    let teeth = members
        .iter()
        .filter_map(|member| Some(member.teeth?.to_string()));
    is_short.then(|| teeth.collect::<Vec<String>>().join(" : "))
}

/// Teeth that pass per radian.
fn turns_to_teeth(teeth: Teeth) -> f64 {
    f64::from(teeth.get()) / std::f64::consts::TAU
}

/// A carrier: pins through the pinions, sides that hold them, and the pinions.
fn draw_carrier(
    scene: &mut Scene,
    stage: &Stage<'_>,
    live: &Live<'_>,
    facts: &dyn CouplingKind,
    (part, letters): (&Part, impl Lettering),
) {
    let (left, right) = stage.face(part.coupling);
    let faces = pinion_faces(stage, part.coupling, facts);
    let middle = |area: &Bounds| area.top + area.height / 2.0;
    let stroke = live.stroke(part.body, SHAFT);
    let lit = live.is_lit(part.body);
    // From the top down, the pins that each side holds.
    let reach = |x: f64| {
        let pins = faces.iter().filter(|face| face.pin.contains(&x));
        let pins = pins.map(|face| middle(&face.area));
        pins.fold((f64::INFINITY, f64::NEG_INFINITY), |(top, bottom), y| {
            (top.min(y - CARRIER_SIDE), bottom.max(y + CARRIER_SIDE))
        })
    };
    let lead = stage.y(stage.plan().grid.pin_row());
    for x in [left, right] {
        let (top, bottom) = reach(x);
        let (top, bottom) = (top.min(lead - SHAFT / 2.0), bottom.max(lead + SHAFT / 2.0));
        if lit {
            scene.line(
                at(x, top),
                at(x, bottom),
                Stroke::solid(Ink::Lit, SHAFT + 8.0),
            );
        }
        scene.line(at(x, top), at(x, bottom), stroke);
    }
    // All pins before all gears: two steps of a pinion are on one.
    for face in &faces {
        let [from, to] = face.pin;
        let y = middle(&face.area);
        scene.line(at(from, y), at(to, y), stroke);
    }
    let pinions = facts.pinions();
    for face in &faces {
        let Some(pinion) = pinions.get(face.pinion) else {
            continue;
        };
        let gear = Gear {
            area: face.area,
            clear: face.clear,
            narrowest: face.clear.width - stage.widened(part.coupling, face.clear.width),
            body: part.body,
            turned: pinion_angle(live, part, pinion) * turns_to_teeth(face.teeth),
            names: named(face.letter, face.teeth, letters),
            own_axis: false,
            pinion: true,
        };
        gear.draw(scene, live, letters);
    }
}

/// How far a pinion has turned: with its carrier, and about its pin.
fn pinion_angle(live: &Live<'_>, part: &Part, pinion: &PinionSpin) -> f64 {
    let bodies = live.train.members(part.coupling);
    let about_pin: f64 = pinion
        .coefficients
        .iter()
        .zip(bodies)
        .map(|(&coefficient, &body)| coefficient as f64 * live.angle(body))
        .sum();
    live.angle(part.body) + about_pin / pinion.divisor as f64
}
