//! Suns, pinions, carriers, rings and gear pairs as they look in half-section.

use levertrain_core::Body;
use levertrain_core::coupling::{CouplingKind, PinionSpin, Role, Teeth};
use levertrain_core::words::said;

use super::lettering::Lettering;
use super::outlines::{CARRIER_SIDE, part_area, pinion_faces};
use super::parts::{Level, Part};
use super::stage::Stage;
use super::wires::SHAFT;
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::motion::live::{Live, Motion};

/// Font size of a gear's letter and teeth.
const NAME_SIZE: f64 = 12.0;
/// Height of a capital over its font size.
const CAPITAL: f64 = 0.7;
/// Distance between the lines that stand for teeth.
const TOOTH_PITCH: f64 = 7.0;

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

/// Letter and teeth of a gear, the fullest first; in large letters the letter matters more than the number.
fn named(letter: &str, teeth: Teeth, letters: impl Lettering) -> Vec<String> {
    let full = format!("{letter} {teeth}");
    if letters.is_large() {
        return vec![full, letter.to_owned()];
    }
    vec![full, teeth.to_string()]
}

/// How much higher than its gear a large name may be: a member's, which no other is near.
fn overhang(names: &[String]) -> f64 {
    let of_member = names
        .iter()
        .all(|name| name.starts_with(char::is_alphabetic));
    if of_member { 1.5 } else { 1.05 }
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

/// A gear seen from the side.
struct Gear {
    area: Bounds,
    /// Where its name may stand, and how wide that is in the narrowest drawing: what it says there
    /// it says in every width.
    clear: Bounds,
    narrowest: f64,
    body: Body,
    /// How many teeth have passed upwards on the near face.
    turned: f64,
    /// Letter and teeth, the fullest first: what fits is said.
    names: Vec<String>,
    own_axis: bool,
    /// A pinion shows its carrier by its outline only: it spins though the carrier is held.
    pinion: bool,
}

impl Gear {
    fn draw(&self, scene: &mut Scene, live: &Live<'_>, letters: impl Lettering) {
        let motion = live.motion(self.body);
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        if live.is_lit(self.body) {
            let rim = 4.0;
            let halo = Bounds {
                left: left - rim,
                top: top - rim,
                width: width + 2.0 * rim,
                height: height + 2.0 * rim,
            };
            scene.fill_box(halo, Ink::Lit);
        }
        scene.fill_box(self.area, Ink::Metal);
        if motion == Motion::Held && !self.pinion {
            hatch(scene, self.area);
        } else {
            self.teeth(scene);
        }
        let dash = if motion == Motion::Free {
            Dash::Dashed
        } else {
            Dash::Solid
        };
        scene.outline_box(self.area, Stroke::broken(motion.ink(), 1.75, dash));
        if self.own_axis {
            let y = top + height / 2.0;
            let chain = Stroke::broken(Ink::Quiet, 1.0, Dash::Chain);
            scene.line(at(left - 10.0, y), at(left + width + 10.0, y), chain);
        }
        // What stands still at the moment turns no way, though nothing holds it.
        let way = match live.speed(self.body) {
            0.0 => Motion::Held,
            _ => motion,
        };
        self.name(scene, way, letters);
    }

    /// Lines along the axis for teeth, moving with the near face: up is forward.
    fn teeth(&self, scene: &mut Scene) {
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        let bottom = top + height;
        // Every few teeth one is marked: of lines that are all alike none shows the way.
        const MARKED: i64 = 6;
        let passed = self.turned.floor();
        let mut tooth = passed as i64;
        let mut y = bottom - (self.turned - passed) * TOOTH_PITCH;
        while y > top + 0.5 {
            if y < bottom - 0.5 {
                let stroke = if tooth.rem_euclid(MARKED) == 0 {
                    Stroke::solid(Ink::Quiet, 2.0)
                } else {
                    Stroke::solid(Ink::Guide, 1.0)
                };
                scene.line(at(left, y), at(left + width, y), stroke);
            }
            y -= TOOTH_PITCH;
            tooth -= 1;
        }
    }

    /// What of its names there is room for.
    fn said(&self, letters: impl Lettering) -> Option<&String> {
        let height = self.clear.height;
        // Room for the arrow is kept at rest too, so that a name does not change with the state.
        let (beside, rim) = (
            if self.pinion {
                4.0
            } else {
                14.0 * letters.times()
            },
            0.1,
        );
        let size = NAME_SIZE * letters.times();
        // Large letters may fill all of a narrow gear and stand out a little: capitals and figures are lower than
        // a line.
        let (line, highest) = if letters.is_large() {
            (CAPITAL, overhang(&self.names) * height)
        } else {
            (text::LINE, height - 1.0)
        };
        let fits = |name: &&String| {
            text::width(name, size, false) + beside <= self.narrowest - rim
                && size * line <= highest
        };
        self.names.iter().find(fits)
    }

    /// Letter and teeth, and an arrow for the way the near face moves.
    fn name(&self, scene: &mut Scene, motion: Motion, letters: impl Lettering) {
        let Some(name) = self.said(letters) else {
            return;
        };
        let height = self.clear.height;
        let Point { x, y } = self.clear.middle();
        let turns = matches!(motion, Motion::Forward | Motion::Backward);
        let arrow = turns && !self.pinion;
        let size = NAME_SIZE * letters.times();
        let label = Label {
            at: at(if arrow { x + 5.0 * letters.times() } else { x }, y),
            text: name.clone(),
            size,
            bold: false,
            ink: Ink::Text,
            align: Align::Centre,
            plate: false,
        };
        let mut ground = label.bounds();
        let before = if arrow { 12.0 * letters.times() } else { 2.0 };
        ground.left -= before;
        ground.width += before + 2.0;
        if letters.is_large() {
            let inside = ground.height.min(height - 2.0);
            (ground.top, ground.height) = (y - inside / 2.0, inside);
            let half = (size * CAPITAL + 3.0) / 2.0;
            if 2.0 * half > inside {
                // Only the letters themselves break the outline.
                let top = y - half;
                scene.fill_box(
                    Bounds {
                        top,
                        height: 2.0 * half,
                        ..label.bounds()
                    },
                    Ink::Metal,
                );
            }
        }
        scene.fill_box(ground, Ink::Metal);
        if arrow {
            let up = if motion == Motion::Forward { -1.0 } else { 1.0 };
            let tip = at(
                ground.left + 6.0 * letters.times(),
                y + up * 5.0 * letters.times(),
            );
            scene.arrow_head(tip, (0.0, up), 9.0 * letters.times(), motion.ink());
        }
        scene.label(label);
    }
}

/// Slanted lines across a box: it is held.
fn hatch(scene: &mut Scene, area: Bounds) {
    const SPACING: f64 = 7.0;
    let Bounds {
        left,
        top,
        width,
        height,
    } = area;
    let mut start = SPACING;
    while start < width + height {
        let from = at(left + start.min(width), top + (start - width).max(0.0));
        let to = at(left + (start - height).max(0.0), top + start.min(height));
        scene.line(from, to, Stroke::solid(Ink::Quiet, 0.75));
        start += SPACING;
    }
}
