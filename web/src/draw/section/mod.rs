//! The half-section drawing, and the columns that the lever diagram shares with it.
//!
//! [`Layout`] plans it once per train on a grid (`plan.rs`); [`Stage`] fits the plan to a width;
//! the scene and the hit tests are read off the stage.

mod board;
mod dice;
mod draft;
mod figures;
mod grid;
mod handle;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod label_tests;
mod labels;
mod outlines;
mod packs;
mod parts;
mod plan;
mod power;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod power_tests;
mod saying;
mod search;
mod stage;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;
mod wires;

use std::cell::RefCell;
use std::rc::Rc;

use levertrain_core::words::number;
use levertrain_core::{Body, Train};

use super::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use super::text;
use crate::motion::live::{Live, Motion};
pub use handle::{Handle, StageSize};
use labels::{Place, Room, Wanted};
use plan::Plan;
pub use stage::{Column, Stage};

/// Font size of the names of sets.
const SET_NAME: f64 = 13.0;
/// Font sizes of the words and speeds at both ends.
const END_NAME: f64 = 13.0;
const END_SPEED: f64 = 12.0;
/// As wide as speeds get.
const WIDEST_SPEED: &str = "\u{2212}888.8";

/// Where a train's parts stand, independent of the size of the drawing.
#[derive(Debug, Clone)]
pub struct Layout {
    train: Train,
    plan: Plan,
    places: Cache,
}

impl Layout {
    /// Lays a train out.
    pub fn of(train: &Train) -> Self {
        Self {
            plan: Plan::of(train),
            train: train.clone(),
            places: RefCell::new(None),
        }
    }

    /// Fits the layout to an available width in CSS pixels.
    pub fn stage(&self, available: f64) -> Stage<'_> {
        Stage::fit(&self.plan, &self.train, available, &self.places)
    }

    /// How many times shafts cross in the drawing.
    pub fn crossings(&self) -> usize {
        self.plan.crossings.len()
    }
}

impl Stage<'_> {
    /// The shaft drawn at a point.
    pub fn shaft_at(&self, point: Point) -> Option<usize> {
        const NEAR: f64 = 7.0;
        let face = figures::faces(self).find_map(|face| match face.body {
            Body::Shaft(shaft) if face.area.contains(point) => Some(shaft),
            _ => None,
        });
        face.or_else(|| {
            let segments = wires::segments(self).into_iter();
            let near = segments.filter_map(|segment| match segment.body {
                Body::Shaft(shaft) => Some((segment.distance(point), shaft)),
                Body::Housing => None,
            });
            near.filter(|(distance, _)| *distance <= NEAR)
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .map(|(_, shaft)| shaft)
        })
    }

    /// Draws the half-section.
    pub fn scene(&self, live: &Live<'_>) -> Scene {
        let size = self.size();
        let mut scene = Scene::new(size.width, size.section_height);
        let axis = self.axis();
        let chain = Stroke::broken(Ink::Quiet, 1.0, Dash::Chain);
        scene.line(at(6.0, axis), at(size.width - 6.0, axis), chain);
        packs::draw_housing(&mut scene, self);
        match &live.powers {
            Some(powers) => {
                wires::draw_supports(&mut scene, self);
                power::draw(&mut scene, self, live, powers);
            }
            None => wires::draw(&mut scene, self, live),
        }
        figures::draw(&mut scene, self, live);
        packs::draw(&mut scene, self, live);
        self.ends(&mut scene, live);
        self.letter(&mut scene, live);
        if let Some(powers) = &live.powers {
            power::note_capped(&mut scene, self, live.train, powers);
        }
        scene
    }

    /// Arrows where the input comes in and the output goes out.
    fn ends(&self, scene: &mut Scene, live: &Live<'_>) {
        for end in [Side::Input, Side::Output] {
            let (inner, outer) = self.end(end);
            let body = end.body(live.train);
            // All power comes in here and goes out there.
            let stroke = match live.powers {
                Some(_) => power::stroke(live, body, 1.0),
                None => live.stroke(body, 3.0),
            };
            scene.line(inner, outer, stroke);
            let tip = match end {
                Side::Input => inner.x - 4.0,
                Side::Output => outer.x,
            };
            let size = 11.0_f64.max(stroke.width * 2.0);
            scene.arrow_head(at(tip, inner.y), (1.0, 0.0), size, stroke.ink);
        }
    }

    /// Where the line of an end begins in the drawing, and where it leaves it.
    fn end(&self, end: Side) -> (Point, Point) {
        let inner = self.point(self.plan().ends[end as usize]);
        let x = match end {
            Side::Input => 8.0,
            Side::Output => self.size().width - 8.0,
        };
        (inner, at(x, inner.y))
    }

    /// Where all words stand, in this size; worked out once, as it is the same in every state.
    fn places(&self, live: &Live<'_>) -> Rc<Places> {
        let key = (
            self.size().width,
            live.powers.is_some(),
            live.speed_unit.name(),
        );
        let known = self.cache.borrow().clone();
        if let Some((_, places)) = known.filter(|(known, _)| *known == key) {
            return places;
        }
        let places = Rc::new(self.find_places(live.train, key.1, key.2));
        *self.cache.borrow_mut() = Some((key, Rc::clone(&places)));
        places
    }

    fn find_places(&self, train: &Train, power: bool, unit: &str) -> Places {
        let line = if power { power::WIDEST } else { wires::SHAFT };
        let mut room = Room::of(self, train, line);
        let sets = train
            .scenario()
            .couplings
            .iter()
            .enumerate()
            .map(|(index, coupling)| {
                let (left, right) = self.face(index);
                let middle = (left + right) / 2.0;
                let column = self.columns()[index];
                // Up to where the next one's may begin.
                let width = 2.0 * (column.right - middle).min(middle - column.left) + 24.0;
                let label = Label {
                    at: at(middle, self.axis() + 17.0),
                    text: labels::fitted(coupling.facts().label(), SET_NAME, true, width),
                    size: SET_NAME,
                    bold: true,
                    ink: Ink::Text,
                    align: Align::Centre,
                    plate: false,
                };
                room.take(label.bounds());
                label
            });
        let sets = sets.collect();
        let ends = [Side::Input, Side::Output].map(|end| {
            let (inner, outer) = self.end(end);
            let subject = Bounds {
                left: inner.x.min(outer.x),
                top: inner.y - 6.0,
                width: (inner.x - outer.x).abs(),
                height: 12.0,
            };
            let mut put = |texts: Vec<String>, size: f64, bold: bool, rows: [f64; 4]| {
                let wanted = Wanted {
                    texts,
                    size,
                    bold,
                    subject,
                    first: rows
                        .map(|dy| (at(outer.x, outer.y + dy), end.align()))
                        .to_vec(),
                };
                room.place(&wanted)
            };
            let words = vec![end.word().to_owned()];
            let word = put(words, END_NAME, true, [-17.0, 18.0, 31.0, -32.0]);
            // Room for any speed: it must not move when the speed changes.
            let widest = vec![format!("{WIDEST_SPEED} {unit}"), WIDEST_SPEED.to_owned()];
            let speed = put(widest, END_SPEED, false, [18.0, 31.0, -17.0, -32.0]);
            [word, speed]
        });
        let elements = packs::places(self, train, &mut room);
        Places {
            sets,
            ends,
            elements,
        }
    }

    /// Names of sets, clutches and brakes, and the speeds of the two ends.
    fn letter(&self, scene: &mut Scene, live: &Live<'_>) {
        let places = self.places(live);
        for label in &places.sets {
            scene.label(label.clone());
        }
        for (end, [word, speed]) in [Side::Input, Side::Output].into_iter().zip(&places.ends) {
            if let Some(place) = word {
                labels::letter(scene, place, end.word(), END_NAME, true, Ink::Text);
            }
            let Some(place) = speed else { continue };
            let body = end.body(live.train);
            let value = number(live.lettered_speed(body), 4);
            let said = match live.motion(body) {
                Motion::Free => "free".to_owned(),
                _ if place.text == WIDEST_SPEED => value,
                _ => format!("{value} {}", live.speed_unit.name()),
            };
            let spare = [&place.text, &said].map(|text| text::width(text, END_SPEED, false));
            let beside = match end {
                Side::Input => spare[1] - spare[0],
                Side::Output => spare[0] - spare[1],
            };
            let place = Place {
                at: at(place.at.x + beside / 2.0, place.at.y),
                ..place.clone()
            };
            labels::letter(scene, &place, &said, END_SPEED, false, Ink::Text);
        }
        packs::letter(scene, live, &places.elements);
    }
}

/// Where the words of a half-section stand.
#[derive(Debug, Clone)]
struct Places {
    sets: Vec<Label>,
    /// Word and speed of the input and of the output.
    ends: [[Option<Place>; 2]; 2],
    elements: Vec<Option<Place>>,
}

/// The places last found, with the width, whether power is shown, and the unit of speed.
type Cache = RefCell<Option<((f64, bool, &'static str), Rc<Places>)>>;

/// One of the two ends of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Side {
    Input,
    Output,
}

impl Side {
    const fn word(self) -> &'static str {
        match self {
            Self::Input => "Input",
            Self::Output => "Output",
        }
    }

    const fn align(self) -> Align {
        match self {
            Self::Input => Align::Left,
            Self::Output => Align::Right,
        }
    }

    fn body(self, train: &Train) -> Body {
        Body::Shaft(match self {
            Self::Input => train.input(),
            Self::Output => train.output(),
        })
    }
}
