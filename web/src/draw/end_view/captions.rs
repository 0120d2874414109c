//! The captions around the gears: what each is called, its teeth, how it moves.

use levertrain_core::coupling::Mount;
use levertrain_core::words::{number, said, word};

use super::subject::{Part, Subject};
use super::wrap::{Column, Phrase};
use crate::draw::names::isolated;
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, at};
use crate::draw::text;
use crate::motion::live::Motion;
use crate::units::speed_unit::SpeedUnit;

/// Distance of captions from the edge of the drawing, and from each other, in CSS pixels.
const MARGIN: f64 = 6.0;

/// Width of a drawing from which there is room to name the shafts, in CSS pixels.
const ROOMY: f64 = 380.0;

/// What is said about one part, placed.
#[derive(Debug, Clone, PartialEq)]
pub struct Caption {
    /// The part.
    pub part: Part,
    /// How it moves, unless it is a pinion that does not turn on its pin.
    pub motion: Option<Motion>,
    /// The lines.
    pub labels: Vec<Label>,
    /// The middle of the sign for how it moves, and the sign's height.
    pub sign: (Point, f64),
    /// The room kept for each line. It does not depend on how the part moves, so that the
    /// drawing does not jump when that changes.
    pub areas: Vec<Bounds>,
}

impl Caption {
    /// The middle of its room.
    pub fn middle(&self) -> Option<Point> {
        let (first, last) = (self.areas.first()?, self.areas.last()?);
        Some(at(
            first.left + first.width / 2.0,
            (first.top + last.top + last.height) / 2.0,
        ))
    }
}

/// The captions of a coupling in a drawing of that size.
pub fn captions(subject: &Subject<'_>, (width, height): (f64, f64)) -> Vec<Caption> {
    let size = (width.min(height) / 38.0).clamp(12.0, 16.0);
    let parts = parts(subject);
    // Gears on parallel axes stand side by side: captions go below them. Around one axis, the
    // corners are free.
    let above = match parts.len() {
        0..=2 => 0,
        count => count / 2,
    };
    // Wider captions in the corners would eat into the circle between them.
    let corner = match above {
        0 => width,
        _ => 0.345 * width,
    };
    let mut captions = Vec::new();
    for (row, on_top) in [(&parts[..above], true), (&parts[above..], false)] {
        let columns = row.len().max(2) as f64;
        let limit = ((width - 2.0 * MARGIN - (columns - 1.0) * MARGIN) / columns).min(corner);
        let drafts: Vec<Draft> = row
            .iter()
            .map(|&part| Draft::of(subject, part, limit, size, width >= ROOMY))
            .collect();
        let last = row.len().saturating_sub(1);
        for (column, draft) in drafts.into_iter().enumerate() {
            // The last column ends at the right edge, the others begin at theirs.
            let flush_right = column > 0 && column == last;
            let x = match (column, flush_right) {
                (0, _) => MARGIN,
                (_, true) => width - MARGIN,
                _ => width * column as f64 / last as f64 - draft.room() / 2.0,
            };
            let align = match flush_right {
                true => Align::Right,
                false => Align::Left,
            };
            let top = if on_top {
                MARGIN
            } else {
                height - MARGIN - draft.height()
            };
            captions.push(draft.place(align, x, top));
        }
    }
    captions
}

/// The parts with a caption, the outermost member first, then the pinions. A member without
/// gear or pins (the housing of a pair) has nothing to point at.
fn parts(subject: &Subject<'_>) -> Vec<Part> {
    let shown = |member: usize| {
        subject.profile.gears.iter().any(|gear| match gear.mount {
            Mount::Member(own) => own == member,
            Mount::Pinion { carrier, .. } => carrier == member,
        })
    };
    let mut parts: Vec<Part> = (0..subject.members.len())
        .filter(|&member| shown(member))
        .map(Part::Member)
        .collect();
    if subject.profile.coaxial {
        parts.reverse();
    }
    parts.extend((0..subject.pinions.len()).map(Part::Pinion));
    parts
}

/// A caption before it has a place.
struct Draft {
    part: Part,
    motion: Option<Motion>,
    size: f64,
    lines: Vec<Line>,
    /// The line that the sign stands beside.
    signed: usize,
}

struct Line {
    text: String,
    bold: bool,
    ink: Ink,
    /// Room to keep for it and the sign beside it.
    room: f64,
}

impl Draft {
    fn of(subject: &Subject<'_>, part: Part, limit: f64, size: f64, roomy: bool) -> Self {
        let motion = subject.motion(part);
        let mut draft = Self {
            part,
            motion: (!subject.is_locked(part)).then_some(motion),
            size,
            lines: Vec::new(),
            signed: 0,
        };
        let plain = Column {
            size,
            bold: false,
            limit,
            indent: 0.0,
        };
        let bold = Column {
            bold: true,
            ..plain
        };
        let signed = Column {
            indent: sign_room(size),
            ..plain
        };
        draft.add(&heading(subject, part), bold, Ink::Text);
        if roomy && let Some(note) = note(subject, part) {
            draft.add(&[Phrase::fixed(note, "")], plain, Ink::Quiet);
        }
        draft.signed = draft.lines.len();
        draft.add(&motion_words(subject, part), signed, motion.ink());
        draft
    }

    fn add(&mut self, phrases: &[Phrase], column: Column, ink: Ink) {
        let bold = column.bold;
        for (text, room) in column.lines(phrases) {
            self.lines.push(Line {
                text,
                bold,
                ink,
                room,
            });
        }
    }

    fn height(&self) -> f64 {
        self.lines.len() as f64 * self.pitch()
    }

    /// From line to line; whole pixels keep the lettering crisp.
    fn pitch(&self) -> f64 {
        (self.size * text::LINE).ceil()
    }

    fn room(&self) -> f64 {
        self.lines.iter().map(|line| line.room).fold(0.0, f64::max)
    }

    fn place(self, align: Align, x: f64, top: f64) -> Caption {
        let pitch = self.pitch();
        let room = sign_room(self.size);
        let mut sign = at(x, top);
        let mut labels = Vec::new();
        let mut areas = Vec::new();
        for (index, line) in self.lines.into_iter().enumerate() {
            let mut place = at(x, top + pitch * (index as f64 + 0.5));
            areas.push(Bounds {
                left: match align {
                    Align::Right => x - line.room,
                    Align::Left | Align::Centre => x,
                },
                top: top + pitch * index as f64,
                width: line.room,
                height: pitch,
            });
            if index == self.signed {
                // The sign stands on the outer side, so that the columns end flush.
                let side = match align {
                    Align::Right => -1.0,
                    Align::Left | Align::Centre => 1.0,
                };
                sign = at(x + side * self.size / 2.0, place.y);
                place.x += side * room;
            }
            if !line.text.is_empty() {
                labels.push(Label {
                    at: place,
                    text: line.text,
                    size: self.size,
                    bold: line.bold,
                    ink: line.ink,
                    align,
                    plate: false,
                });
            }
        }
        Caption {
            part: self.part,
            motion: self.motion,
            labels,
            sign: (sign, self.size * 0.8),
            areas,
        }
    }
}

/// Room for the sign before a line of that font size, in CSS pixels.
fn sign_room(size: f64) -> f64 {
    size * 1.25
}

/// What a part is called, and its teeth.
fn heading(subject: &Subject<'_>, part: Part) -> Vec<Phrase> {
    let (name, teeth) = match part {
        Part::Member(member) => {
            let member = &subject.members[member];
            (
                member.role.word(),
                member
                    .teeth
                    .map(|teeth| said("gear-teeth", &[("teeth", &teeth.to_string())])),
            )
        }
        Part::Pinion(pinion) => {
            let pinion = &subject.pinions[pinion];
            let first = pinion.teeth.to_string();
            let teeth = match pinion.second_step.map(|second| second.to_string()) {
                Some(second) => said(
                    "gear-teeth-steps",
                    &[("first", &first), ("second", &second)],
                ),
                None => said("gear-teeth", &[("teeth", &first)]),
            };
            (pinion.name.word(), Some(teeth))
        }
    };
    let mut name = name.to_owned();
    // Capitals of all alphabets would be a table of 12 kB in the engine; a name that begins with another
    // letter stands as its language writes it.
    if let Some(first) = name.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let teeth = teeth.map(|teeth| Phrase::fixed(teeth, ", "));
    std::iter::once(Phrase::fixed(name, ""))
        .chain(teeth)
        .collect()
}

/// The shaft a member is part of, unless its name says no more than the member's.
fn note(subject: &Subject<'_>, part: Part) -> Option<String> {
    let Part::Member(member) = part else {
        return None;
    };
    let label = subject.live.train.body_label(subject.bodies[member]);
    let known = label.eq_ignore_ascii_case(subject.members[member].role.word());
    (!known).then(|| isolated(label))
}

/// How a part moves.
fn motion_words(subject: &Subject<'_>, part: Part) -> [Phrase; 2] {
    let motion = subject.motion(part);
    let unit = subject.live.speed_unit;
    let speed = Phrase {
        text: match motion {
            _ if subject.is_locked(part) => lettered(unit, 0.0),
            // No speed is decided, so none is told.
            Motion::Free | Motion::Fighting => String::new(),
            Motion::Held | Motion::Forward | Motion::Backward => {
                lettered(unit, subject.speed(part) * subject.live.input_speed)
            }
        },
        longest: lettered(unit, -88.88),
        joint: ", ",
    };
    match part {
        Part::Member(_) => {
            let word = Phrase {
                text: motion.word().to_owned(),
                longest: Motion::Backward.word().to_owned(),
                joint: "",
            };
            [word, speed]
        }
        Part::Pinion(_) => {
            let speed = match speed.text.is_empty() {
                true => Phrase {
                    text: motion.word().to_owned(),
                    ..speed
                },
                false => speed,
            };
            [Phrase::fixed(word("gear-on-its-pin"), ""), speed]
        }
    }
}

/// A speed with its unit.
fn lettered(unit: SpeedUnit, rev_per_min: f64) -> String {
    let speed = unit.of(rev_per_min);
    // A glide ends near zero, not on it.
    let figures = if speed.abs() < 0.0005 {
        "0".to_owned()
    } else {
        number(speed, 4)
    };
    format!("{figures} {}", unit.symbol())
}
