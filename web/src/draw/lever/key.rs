//! The key of both drawings of the stage: every sign that no word beside it explains, drawn as it is
//! there.

use levertrain_core::Train;
use levertrain_core::coupling::Role;
use levertrain_core::words::word;

use super::marks::{self, Look};
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::section::Stage;
use crate::draw::text;
use crate::motion::live::Motion;

const SIZE: f64 = 12.0;
/// A little more than the highest sign, so that no two lines touch.
const LINE: f64 = 21.0;
const MARGIN: f64 = 8.0;
const BETWEEN: f64 = 12.0;
const RADIUS: f64 = 7.5;
/// Width of a shaft in the half-section, and of one without power beside others.
const SHAFT: f64 = 3.0;
const POWERLESS: f64 = 1.5;

/// What is explained.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Entry {
    Way(Motion),
    Member(Role),
    Held,
    Free,
    Fights,
    Shared,
    Open,
    Closed,
    Behind,
    Powerless,
    Input,
    Output,
}

impl Entry {
    fn words(self) -> &'static str {
        match self {
            Self::Way(motion) => motion.word(),
            Self::Member(role) => role.word(),
            Self::Held => Motion::Held.word(),
            Self::Free => Motion::Free.word(),
            Self::Fights => Motion::Fighting.word(),
            Self::Shared => word("key-one-shaft"),
            Self::Open => word("key-open"),
            Self::Closed => word("key-closed"),
            Self::Behind => word("key-behind"),
            Self::Powerless => word("key-no-power"),
            Self::Input => word("lever-input"),
            Self::Output => word("lever-output"),
        }
    }

    /// Width kept for the sign, with the space after it.
    fn sign_width(self) -> f64 {
        match self {
            Self::Way(_) => 14.0,
            Self::Member(role) if role.letter().len() > 1 => 25.0,
            Self::Member(_) => 21.0,
            Self::Held | Self::Shared => 29.0,
            Self::Free | Self::Open | Self::Closed | Self::Behind | Self::Powerless => 32.0,
            Self::Fights => 28.0,
            Self::Input | Self::Output => 24.0,
        }
    }

    fn width(self) -> f64 {
        self.sign_width() + text::width(self.words(), SIZE, false)
    }

    fn draw_sign(self, scene: &mut Scene, centre: Point) {
        let mut node = |motion, input, output, letter: Option<&str>| {
            let look = Look {
                motion,
                input,
                output,
            };
            let radius = match letter.map(str::len) {
                // With its edge it is about as high as a line.
                None if motion == Motion::Fighting => RADIUS - 5.5,
                None => RADIUS - 3.0,
                Some(1) => RADIUS,
                Some(_) => RADIUS + 2.0,
            };
            look.draw(scene, centre, radius, letter);
        };
        match self {
            Self::Member(role) => node(Motion::Held, false, false, Some(role.letter())),
            Self::Input => node(Motion::Held, true, false, None),
            Self::Output => node(Motion::Held, false, true, None),
            Self::Free => {
                let ends = [-13.0, 13.0].map(|x| at(centre.x + x, centre.y));
                let line = Stroke::broken(Ink::Free, marks::LINK, Dash::Dashed);
                scene.line(ends[0], ends[1], line);
                let look = Look {
                    motion: Motion::Free,
                    input: false,
                    output: false,
                };
                look.draw(scene, centre, RADIUS, None);
            }
            Self::Fights => node(Motion::Fighting, false, false, None),
            Self::Shared => scene.line(
                at(centre.x - 10.0, centre.y),
                at(centre.x + 10.0, centre.y),
                Stroke::solid(Ink::Held, marks::LINK),
            ),
            Self::Powerless => scene.line(
                at(centre.x - 12.0, centre.y),
                at(centre.x + 12.0, centre.y),
                Stroke::broken(Ink::Held, POWERLESS, Dash::Dotted),
            ),
            Self::Open => packs(scene, centre, 10.0, Ink::Quiet),
            Self::Closed => packs(scene, centre, 3.0, Ink::Text),
            Self::Behind => {
                let stroke = Stroke::solid(Ink::Held, SHAFT);
                for side in [-1.0, 1.0] {
                    let ends = [4.0, 12.0].map(|x| at(centre.x + side * x, centre.y));
                    scene.line(ends[0], ends[1], stroke);
                }
                let [top, bottom] = [-7.0, 7.0].map(|y| at(centre.x, centre.y + y));
                scene.line(top, bottom, stroke);
            }
            Self::Held => marks::ground(scene, at(centre.x, centre.y - 3.0)),
            Self::Way(motion) => {
                let up = if motion == Motion::Forward { -1.0 } else { 1.0 };
                let tip = at(centre.x, centre.y + 7.0 * up);
                let tail = at(centre.x, centre.y - 7.0 * up);
                let ink = motion.ink();
                let neck = at(centre.x, centre.y + 2.0 * up);
                scene.line(tail, neck, Stroke::solid(ink, 2.5));
                scene.arrow_head(tip, (0.0, up), 8.0, ink);
            }
        }
    }
}

/// Two plate packs with a gap between them.
fn packs(scene: &mut Scene, centre: Point, gap: f64, ink: Ink) {
    const REACH: f64 = 7.0;
    const PITCH: f64 = 3.0;
    let plates = [0.0, PITCH, 2.0 * PITCH];
    if gap <= PITCH {
        let half = gap / 2.0 + 2.0 * PITCH + 1.5;
        let block = Bounds {
            left: centre.x - half,
            top: centre.y - REACH - 1.5,
            width: 2.0 * half,
            height: 2.0 * REACH + 3.0,
        };
        scene.fill_box(block, Ink::Metal);
        scene.outline_box(block, Stroke::solid(ink, 1.0));
    }
    for side in [-1.0, 1.0] {
        for plate in plates {
            let x = centre.x + side * (gap / 2.0 + plate);
            let ends = [-REACH, REACH].map(|y| at(x, centre.y + y));
            scene.line(ends[0], ends[1], Stroke::solid(ink, 1.5));
        }
    }
}

/// Height that the key of a train needs in the width of its stage, in CSS pixels; `power` where the
/// half-section shows it.
pub(super) fn height(stage: &Stage<'_>, power: bool) -> f64 {
    let lines = places(stage, power).last().map_or(0, |(line, ..)| line + 1);
    lines as f64 * LINE + 4.0
}

/// Draws it along the lower edge.
pub(super) fn draw(scene: &mut Scene, stage: &Stage<'_>, power: bool) {
    let top = scene.height - height(stage, power);
    for place in places(stage, power) {
        draw_entry(scene, top, place);
    }
}

/// Draws an entry in its place; `top` is the upper edge of the key.
fn draw_entry(scene: &mut Scene, top: f64, (line, left, entry): (usize, f64, Entry)) {
    let y = top + (line as f64 + 0.5) * LINE;
    let sign = entry.sign_width();
    entry.draw_sign(scene, at(left + sign / 2.0 - 2.5, y));
    scene.label(Label {
        at: at(left + sign, y),
        text: entry.words().to_owned(),
        size: SIZE,
        bold: false,
        ink: Ink::Text,
        align: Align::Left,
        plate: false,
    });
}

/// Line, left end and what is there; in reading order.
fn places(stage: &Stage<'_>, power: bool) -> Vec<(usize, f64, Entry)> {
    let width = stage.size().width;
    let (mut line, mut left) = (0, MARGIN);
    entries(stage.train(), stage.crosses(), power)
        .into_iter()
        .map(|entry| {
            if left + entry.width() > width - MARGIN && left > MARGIN {
                (line, left) = (line + 1, MARGIN);
            }
            let place = (line, left, entry);
            left += entry.width() + BETWEEN;
            place
        })
        .collect()
}

fn entries(train: &Train, crosses: bool, power: bool) -> Vec<Entry> {
    const ROLES: [Role; 10] = [
        Role::Sun,
        Role::SmallSun,
        Role::LargeSun,
        Role::FirstSun,
        Role::SecondSun,
        Role::Carrier,
        Role::Ring,
        Role::First,
        Role::Second,
        Role::Frame,
    ];
    let present = |role: &Role| {
        let mut couplings = train.scenario().couplings.iter();
        couplings.any(|coupling| {
            let members = coupling.facts().members();
            members.iter().any(|member| member.role == *role)
        })
    };
    let ways = [Motion::Forward, Motion::Backward].map(Entry::Way);
    let roles = ROLES.into_iter().filter(present).map(Entry::Member);
    let states = [Entry::Held, Entry::Free, Entry::Fights];
    let several = train.scenario().couplings.len() > 1;
    let shared = several.then_some(Entry::Shared);
    let mut elements = train.scenario().elements.iter();
    let packs = match elements.any(|element| !element.is_one_way()) {
        true => &[Entry::Open, Entry::Closed][..],
        false => &[],
    };
    let behind = crosses.then_some(Entry::Behind);
    let ends = [Entry::Input, Entry::Output];
    let signs = ways.into_iter().chain(roles).chain(states);
    let powerless = power.then_some(Entry::Powerless);
    let lines = shared.into_iter().chain(behind).chain(powerless);
    let all = signs.chain(lines).chain(packs.iter().copied());
    all.chain(ends).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::scene::Mark;
    use crate::draw::tests::{again_in_german, sessions};

    /// How near two entries may come: beside each other, and one under the other.
    const BESIDE: f64 = 11.0;
    const UNDER: f64 = 0.5;

    /// The box of all that is drawn for an entry.
    fn drawn(stage: &Stage<'_>, place: (usize, f64, Entry)) -> Bounds {
        let mut scene = Scene::new(stage.size().width, stage.size().lever_height);
        draw_entry(&mut scene, 100.0, place);
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        let mut reach = |x: f64, y: f64, by: f64| {
            low = [low[0].min(x - by), low[1].min(y - by)];
            high = [high[0].max(x + by), high[1].max(y + by)];
        };
        for mark in &scene.marks {
            match mark {
                Mark::Path { points, stroke } => {
                    points
                        .iter()
                        .for_each(|p| reach(p.x, p.y, stroke.width / 2.0));
                }
                Mark::Fill { points, .. } => points.iter().for_each(|p| reach(p.x, p.y, 0.0)),
                Mark::Disc { centre, radius, .. } => reach(centre.x, centre.y, *radius),
                Mark::Text(label) => {
                    let area = label.bounds();
                    reach(area.left, area.middle().y, 0.0);
                    reach(area.left + area.width, area.middle().y, 0.0);
                }
            }
        }
        Bounds {
            left: low[0],
            top: low[1],
            width: high[0] - low[0],
            height: high[1] - low[1],
        }
    }

    /// Catches signs that are higher than their line or wider than the room before their word.
    #[test]
    fn no_two_entries_touch() {
        for (name, session) in sessions() {
            for width in [0.0, 390.0, 860.0, 1280.0, 1920.0] {
                let stage = session.layout().stage(width);
                for power in [false, true] {
                    let places = places(&stage, power);
                    let boxes: Vec<Bounds> =
                        places.iter().map(|&place| drawn(&stage, place)).collect();
                    for (index, area) in boxes.iter().enumerate() {
                        let wide = Bounds {
                            left: area.left - BESIDE,
                            top: area.top - UNDER,
                            width: area.width + 2.0 * BESIDE,
                            height: area.height + 2.0 * UNDER,
                        };
                        for (other, near) in boxes.iter().enumerate().skip(index + 1) {
                            assert!(
                                !wide.overlaps(near),
                                "{name}, {width} wide: {:?} and {:?}",
                                places[index].2,
                                places[other].2
                            );
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn no_two_entries_touch_in_german() {
        again_in_german(&[no_two_entries_touch]);
    }
}
