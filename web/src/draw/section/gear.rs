//! A gear in half-section: its outline, teeth that move, and what it is called.

use levertrain_core::Body;
use levertrain_core::coupling::Teeth;

use super::lettering::Lettering;
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::motion::live::{Live, Motion};

/// Font size of a gear's letter and teeth.
const NAME_SIZE: f64 = 12.0;
/// Height of a capital over its font size.
const CAPITAL: f64 = 0.7;
/// Distance between the lines that stand for teeth.
const TOOTH_PITCH: f64 = 7.0;

/// A gear seen from the side.
pub struct Gear {
    pub area: Bounds,
    /// Where its name may stand, and how wide that is in the narrowest drawing: what it says there
    /// it says in every width.
    pub clear: Bounds,
    pub narrowest: f64,
    pub body: Body,
    /// How many teeth have passed upwards on the near face.
    pub turned: f64,
    /// Letter and teeth, the fullest first: what fits is said.
    pub names: Vec<String>,
    pub own_axis: bool,
    /// A pinion shows its carrier by its outline only: it spins though the carrier is held.
    pub pinion: bool,
}

impl Gear {
    pub fn draw(&self, scene: &mut Scene, live: &Live<'_>, letters: impl Lettering) {
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
    pub fn said(&self, letters: impl Lettering) -> Option<&String> {
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

/// Letter and teeth of a gear, the fullest first; in large letters the letter matters more than the number.
pub fn named(letter: &str, teeth: Teeth, letters: impl Lettering) -> Vec<String> {
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
