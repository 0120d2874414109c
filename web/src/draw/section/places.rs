//! Where all words of a half-section stand: found once a train, the same in every state and width.

use levertrain_core::words::number;

use super::labels::{self, Place, Room, Wanted};
use super::lettering::Lettering;
use super::stage::Stage;
use super::{Side, figures, pack_names};
use crate::draw::names::isolated;
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, Scene, at};
use crate::draw::text;
use crate::motion::live::{Live, Motion};
use crate::units::speed_unit::SpeedUnit;

/// Font size of the names of sets.
const SET_NAME: f64 = 13.0;
/// Font sizes of the words and speeds at both ends.
const END_NAME: f64 = 13.0;
const END_SPEED: f64 = 12.0;
/// Stands for a speed that is asked for.
pub const ASKED: &str = "?";
/// Half a line of names.
const HALF_LINE: f64 = 7.8;
/// As wide as speeds get.
const WIDEST_SPEED: &str = "\u{2212}888.8";

/// Where the words of a half-section stand in the narrowest drawing.
#[derive(Debug, Clone, Default)]
pub struct Places {
    sets: Vec<Label>,
    /// Word and speed of the input and of the output.
    ends: [[Option<Place>; 2]; 2],
    elements: Vec<Option<Place>>,
    /// In large letters, the teeth of pairs of gears too small to say their own.
    teeth: Vec<Place>,
}

impl Places {
    /// Finds them, clear of anything that the drawing may show; `line` is the width of its lines.
    pub fn find(stage: &Stage<'_>, line: f64, letters: impl Lettering) -> Self {
        let train = stage.train();
        let mut room = Room::of(stage, line, letters.beyond());
        if letters.is_large() {
            room.take_lettered(4.0 * (letters.times() - 1.0));
        }
        let couplings = &train.scenario().couplings;
        let last = couplings.len().saturating_sub(1);
        let sets = couplings.iter().enumerate().map(|(index, coupling)| {
            let (left, right) = stage.face(index);
            let middle = (left + right) / 2.0;
            let column = stage.columns()[index];
            // Up to where the next one's may begin.
            let width = 2.0 * (column.right - middle).min(middle - column.left) + 24.0;
            let stands = if letters.is_large() {
                let inwards = f64::from(u8::from(index == 0)) - f64::from(u8::from(index == last));
                middle + inwards * letters.gives_way()
            } else {
                middle
            };
            let label = Label {
                at: at(
                    stands,
                    stage.axis() + stage.below(index) + 17.0 + HALF_LINE * (letters.times() - 1.0),
                ),
                text: labels::fitted(
                    &isolated(coupling.facts().label()),
                    SET_NAME * letters.times(),
                    true,
                    width,
                ),
                size: SET_NAME * letters.times(),
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
            let (inner, outer) = stage.end(end);
            let subject = Bounds {
                left: inner.x.min(outer.x),
                top: inner.y - 6.0,
                width: (inner.x - outer.x).abs(),
                height: 12.0,
            };
            let row = |dy: f64| at(outer.x, outer.y + dy * (1.0 + letters.times()) / 2.0);
            let mut put = |(texts, subject): (Vec<String>, Bounds),
                           size: f64,
                           bold: bool,
                           first: Vec<Point>| {
                let wanted = Wanted {
                    texts,
                    size,
                    bold,
                    subject,
                    first: first.into_iter().map(|spot| (spot, end.align())).collect(),
                };
                room.place(&wanted)
            };
            let words = vec![end.word().to_owned()];
            let word = put(
                (words, subject),
                END_NAME * letters.times(),
                true,
                [-17.0, 18.0, 31.0, -32.0].map(row).to_vec(),
            );
            // Room for any speed in any unit: it must not move when the speed changes.
            let unit = SpeedUnit::RevPerMin.symbol();
            let mut widest = vec![format!("{WIDEST_SPEED} {unit}"), WIDEST_SPEED.to_owned()];
            if letters.is_large() {
                // The unit stands at the axis of the levers.
                widest.remove(0);
            }
            let mut first = [18.0, 31.0, -17.0, -32.0].map(row).to_vec();
            let mut named = subject;
            if letters.is_large()
                && let Some(word) = &word
            {
                // Where there is no room under or over the word it stands beside it.
                first.insert(1, word.beside(end));
                first.swap(2, 3);
                named = word.with(&subject);
            }
            let speed = put((widest, named), END_SPEED * letters.times(), false, first);
            [word, speed]
        });
        let elements = pack_names::places(stage, &mut room, letters);
        let mut teeth = Vec::new();
        if letters.is_large() {
            for index in 0..train.scenario().couplings.len() {
                let untold = figures::untold(stage, index, letters);
                let Some((text, subject)) = untold.zip(figures::outline(stage, index)) else {
                    continue;
                };
                let place = room.place(&Wanted {
                    texts: vec![text.clone()],
                    size: END_SPEED * letters.times(),
                    bold: false,
                    subject,
                    first: Vec::new(),
                });
                teeth.extend(place.filter(|place| place.text == text));
            }
        }
        Self {
            sets,
            ends,
            elements,
            teeth,
        }
    }

    /// Whether no clutch or brake of a train has a long name.
    pub fn are_ordinary(stage: &Stage<'_>) -> bool {
        const ORDINARY: usize = 24;
        let mut elements = stage.train().scenario().elements.iter();
        elements.all(|element| pack_names::longest_name(element).chars().count() <= ORDINARY)
    }

    /// Whether the speeds of both ends found room, if their words did.
    pub fn tell_speeds(&self) -> bool {
        let mut ends = self.ends.iter();
        ends.all(|[word, speed]| {
            let whole = speed
                .as_ref()
                .is_some_and(|speed| speed.text == WIDEST_SPEED);
            whole || word.is_none()
        })
    }

    /// Whether the name of a clutch or brake found no room as a whole.
    pub fn cut_some(&self, stage: &Stage<'_>) -> bool {
        let elements = stage.train().scenario().elements.iter();
        let mut names = elements.map(pack_names::longest_name).zip(&self.elements);
        names.any(|(name, place)| place.as_ref().is_none_or(|place| place.text != name))
    }

    /// How far the name of each clutch and brake is from it.
    #[cfg(test)]
    pub fn away(&self) -> Vec<f64> {
        let places = self.elements.iter().flatten();
        places.map(Place::away).collect()
    }

    /// Names of sets, clutches and brakes, and the speeds of the two ends.
    pub fn letter(
        &self,
        scene: &mut Scene,
        stage: &Stage<'_>,
        live: &Live<'_>,
        letters: impl Lettering,
    ) {
        for label in &self.sets {
            scene.label(Label {
                at: at(stage.spread_name(label.at.x), label.at.y),
                ..label.clone()
            });
        }
        for (end, [word, speed]) in [Side::Input, Side::Output].into_iter().zip(&self.ends) {
            if let Some(place) = word {
                let place = place.spread(&|x| stage.spread(x));
                labels::letter(
                    scene,
                    &place,
                    &place.text,
                    END_NAME * letters.times(),
                    true,
                    Ink::Text,
                );
            }
            let Some(place) = speed else { continue };
            // A number is whole or not there.
            if letters.is_large() && place.text != WIDEST_SPEED {
                continue;
            }
            let body = end.body(live.train);
            let value = number(live.lettered_speed(body), 4);
            let said = match live.motion(body) {
                Motion::Free => Motion::Free.word().to_owned(),
                _ if letters.asks() => ASKED.to_owned(),
                _ if letters.is_large() || place.text == WIDEST_SPEED => value,
                _ => format!("{value} {}", live.speed_unit.symbol()),
            };
            let spare = [&place.text, &said]
                .map(|text| text::width(text, END_SPEED * letters.times(), false));
            let beside = match end {
                Side::Input => spare[1] - spare[0],
                Side::Output => spare[0] - spare[1],
            };
            let mut place = place.spread(&|x| stage.spread(x));
            place.at.x += beside / 2.0;
            labels::letter(
                scene,
                &place,
                &said,
                END_SPEED * letters.times(),
                false,
                Ink::Text,
            );
        }
        pack_names::letter(scene, stage, live, (&self.elements, letters));
        if letters.is_large() {
            for place in &self.teeth {
                let place = place.spread(&|x| stage.spread(x));
                let size = END_SPEED * letters.times();
                labels::letter(scene, &place, &place.text, size, false, Ink::Text);
            }
        }
    }
}
