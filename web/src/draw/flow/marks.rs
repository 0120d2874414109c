//! The flow drawing as marks: bands from the nearest outwards, boxes over them, words.

use levertrain_core::Train;
use levertrain_core::short_sort::sort_short_by_key;
use levertrain_core::words::{Catalogue, word};

use super::arrange::Arrangement;
use super::block::{Block, SIGN};
use super::frame::Frame;
use super::network::{Network, Place};
use super::ribbon::{Ribbon, Run, bar};
use super::saying;
use super::sheet::{EDGE, Spot, spot};
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::motion::live::Live;

/// Font size of sentences.
const CAPTION: f64 = 14.0;
const CAPTION_LINE: f64 = 18.0;
/// Font size of what the inks mean, and height of its line.
const KEY: f64 = 12.0;
const KEY_LINE: f64 = 24.0;
/// Font size of the words at both ends.
const END: f64 = 13.5;
/// Clear ground around a band that passes over others.
const CASING: f64 = 3.5;
const OUTLINE: f64 = 1.6;
const SEAM: f64 = 0.8;
/// Least distance between arrow heads along a band.
const ARROWS_APART: f64 = 140.0;

/// Sentences below the drawing, cut into lines, and over them, where bands have two inks, what these
/// mean.
pub(super) struct Caption {
    lines: Vec<String>,
    key: bool,
}

impl Caption {
    /// Its height in CSS pixels.
    pub(super) fn height(&self) -> f64 {
        if self.lines.is_empty() {
            0.0
        } else {
            let key = if self.key { KEY_LINE } else { 0.0 };
            self.lines.len() as f64 * CAPTION_LINE + key + 2.0 * EDGE
        }
    }

    fn draw(&self, scene: &mut Scene, mut top: f64) {
        if self.key {
            key(scene, top + CAPTION_LINE / 2.0);
            top += KEY_LINE;
        }
        for (index, line) in self.lines.iter().enumerate() {
            scene.label(Label {
                at: at(scene.width / 2.0, top + (index as f64 + 0.5) * CAPTION_LINE),
                text: line.clone(),
                size: CAPTION,
                bold: false,
                ink: Ink::Text,
                align: Align::Centre,
                plate: false,
            });
        }
    }
}

/// What stands below the drawing of a network.
pub(super) fn caption(train: &Train, network: &Network, width: f64) -> Caption {
    let sentence = saying::of_loop(train, network);
    Caption {
        key: sentence.is_some(),
        lines: sentence.map_or_else(Vec::new, |text| wrapped(&text, width - 2.0 * EDGE)),
    }
}

/// A drawing that only says something.
pub(super) fn sentence(words: &str, (width, height): (f64, f64)) -> Scene {
    let caption = Caption {
        lines: wrapped(words, width - 2.0 * EDGE),
        key: false,
    };
    let mut scene = Scene::new(width, height.max(caption.height()));
    let top = (scene.height - caption.height()) / 2.0 + EDGE;
    caption.draw(&mut scene, top);
    scene
}

/// A piece of band in each ink with what it means, in the middle of the drawing.
fn key(scene: &mut Scene, y: f64) {
    const PIECE: (f64, f64) = (26.0, 13.0);
    const BESIDE: f64 = 6.0;
    let [through, round] = saying::KEY.map(|key| Catalogue::spoken().plain(key));
    let widths = [through, round].map(|words| text::width(words, KEY, false));
    let sign = PIECE.0 + BESIDE;
    let all = widths[0] + widths[1] + 2.0 * sign + 3.0 * BESIDE;
    let mut left = ((scene.width - all) / 2.0).max(EDGE / 2.0);
    for (words, width, ink) in [
        (through, widths[0], Ink::Power),
        (round, widths[1], Ink::Round),
    ] {
        let area = Bounds {
            left,
            top: y - PIECE.1 / 2.0,
            width: PIECE.0,
            height: PIECE.1,
        };
        scene.fill_box(area, ink);
        scene.outline_box(area, Stroke::solid(Ink::Text, OUTLINE));
        if ink == Ink::Round {
            let [from, to] = [left, left + PIECE.0].map(|x| at(x, y));
            scene.line(from, to, Stroke::broken(Ink::Paper, 2.0, Dash::Dashed));
        }
        scene.label(Label {
            at: at(left + sign, y),
            text: words.to_owned(),
            size: KEY,
            bold: false,
            ink: Ink::Text,
            align: Align::Left,
            plate: false,
        });
        left += sign + width + 3.0 * BESIDE;
    }
}

/// A sentence cut into lines no wider than `width`.
fn wrapped(sentence: &str, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in sentence.split_whitespace() {
        match lines.last_mut() {
            Some(line) if text::width(&format!("{line} {word}"), CAPTION, false) <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Draws a framed network.
pub(super) fn draw(
    live: &Live<'_>,
    network: &Network,
    arrangement: &Arrangement,
    frame: &Frame,
    caption: &Caption,
) -> Scene {
    let (width, height) = frame.sheet.page(frame.size);
    let (x, y) = frame.sheet.page((0.0, frame.middle));
    let page = Page {
        frame,
        origin: at(x, y),
    };
    let mut scene = Scene::new(width, height + caption.height());
    let mut ribbons = Ribbon::all(network, arrangement, frame);
    sort_short_by_key(&mut ribbons, |ribbon| ribbon.lane);
    for ribbon in &ribbons {
        page.ribbon(&mut scene, ribbon, live.lit == Some(ribbon.shaft));
    }
    for (block, &start) in frame.blocks.iter().zip(&frame.starts) {
        let place = network.nodes[block.node].place;
        page.block(&mut scene, live.train, block, start, place);
    }
    for ribbon in &ribbons {
        for (end, key) in ["end-input", "end-output"].into_iter().enumerate() {
            if let Some(across) = ribbon.ends[end] {
                page.end(&mut scene, end, across, word(key));
            }
        }
    }
    caption.draw(&mut scene, height + EDGE);
    scene
}

struct Page<'f> {
    frame: &'f Frame,
    origin: Point,
}

impl Page<'_> {
    fn point(&self, spot: Spot) -> Point {
        self.frame.sheet.point(self.origin, spot)
    }

    fn points(&self, spots: &[Spot]) -> Vec<Point> {
        spots.iter().map(|&spot| self.point(spot)).collect()
    }

    /// The bands of a shaft: clear ground, an outline around all of them, then their bodies.
    fn ribbon(&self, scene: &mut Scene, ribbon: &Ribbon, lit: bool) {
        let runs = || ribbon.rails.iter().chain(&ribbon.legs);
        let bodies: Vec<(Vec<Point>, bool)> = runs()
            .map(|run| (self.points(&bar(run.from, run.to, run.width)), run.looped))
            .chain(
                ribbon
                    .bends
                    .iter()
                    .map(|bend| (self.points(&bend.outline), bend.looped)),
            )
            .collect();
        for (ink, width) in [(Ink::Paper, CASING), (Ink::Text, OUTLINE)] {
            for (body, _) in &bodies {
                scene.path(closed(body), Stroke::solid(ink, 2.0 * width));
            }
        }
        // Bodies that are not part of a loop first: a loop is seen whole.
        for round in [false, true] {
            for (body, _) in bodies.iter().filter(|(_, looped)| *looped == round) {
                let ink = match (lit, round) {
                    (true, _) => Ink::Lit,
                    (false, true) => Ink::Round,
                    (false, false) => Ink::Power,
                };
                // A hair wider than its outline's inside, so that no seam shows between pieces.
                scene.path(closed(body), Stroke::solid(ink, SEAM));
                scene.fill(body.clone(), ink);
            }
        }
        for run in runs() {
            if run.looped && run.width > 8.0 {
                let centre = Stroke::broken(Ink::Paper, 2.0, Dash::Dashed);
                scene.line(self.point(run.from), self.point(run.to), centre);
            }
            self.arrows(scene, run);
        }
    }

    /// Arrow heads along a band that is long enough.
    fn arrows(&self, scene: &mut Scene, run: &Run) {
        let (along, across) = (
            run.to.along - run.from.along,
            run.to.across - run.from.across,
        );
        let size = (run.width * 0.6).clamp(7.0, 18.0);
        let length = along.hypot(across);
        if length < size + 4.0 {
            return;
        }
        let way = self.frame.sheet.page((along, across));
        let count = (length / ARROWS_APART).floor().max(1.0);
        for nth in 0..count as usize {
            let share = (nth as f64 + 0.5) / count + size / length / 2.0;
            let tip = spot(
                run.from.along + along * share,
                run.from.across + across * share,
            );
            scene.arrow_head(self.point(tip), way, size, Ink::Text);
        }
    }

    fn block(&self, scene: &mut Scene, train: &Train, block: &Block, start: f64, place: Place) {
        let corner = self.point(spot(start, -block.across[0]));
        let size = (block.along, block.across[0] + block.across[1]);
        let (width, height) = self.frame.sheet.page(size);
        let area = Bounds {
            left: corner.x,
            top: corner.y,
            width,
            height,
        };
        let carries = !block.meetings.is_empty();
        let ink = if carries { Ink::Text } else { Ink::Quiet };
        let outline = if matches!(place, Place::Set(_)) {
            1.75
        } else {
            1.25
        };
        scene.fill_box(area, Ink::Metal);
        scene.outline_box(area, Stroke::solid(ink, outline));
        let at_box = |place: Spot| self.point(spot(start + place.along, place.across));
        if let Some(plates) = block.plates {
            match place {
                Place::Clutch(element) if train.scenario().elements[element].is_one_way() => {
                    rollers(scene, at_box(plates));
                }
                _ => closed_packs(scene, at_box(plates)),
            }
        }
        for (place, label) in &block.texts {
            scene.label(Label {
                at: at_box(*place),
                ..label.clone()
            });
        }
        for (place, words) in &block.grounds {
            let middle = at_box(*place);
            ground(scene, at(middle.x - words / 2.0 - SIGN / 2.0, middle.y));
        }
    }

    /// The word for an end of the train, beside its band.
    fn end(&self, scene: &mut Scene, end: usize, across: f64, word: &str) {
        let full = |text: &str, point: Point, align: Align, bold: bool| Label {
            at: point,
            text: text.to_owned(),
            size: END,
            bold,
            ink: Ink::Text,
            align,
            plate: false,
        };
        if self.frame.sheet.upright {
            let words = format!("{word} 100 %");
            let half = text::width(&words, END, true) / 2.0 + EDGE;
            let along = [EDGE + 8.0, self.frame.size.0 - EDGE - 8.0][end];
            let mut point = self.point(spot(along, across));
            point.x = point.x.clamp(half, (self.frame.size.1 - half).max(half));
            scene.label(full(&words, point, Align::Centre, true));
            return;
        }
        let (along, align) = [
            (EDGE, Align::Left),
            (self.frame.size.0 - EDGE, Align::Right),
        ][end];
        for (words, shift, bold) in [(word, -8.5, true), ("100 %", 8.5, false)] {
            let mut point = self.point(spot(along, across));
            point.y += shift;
            scene.label(full(words, point, align, bold));
        }
    }
}

fn closed(outline: &[Point]) -> Vec<Point> {
    outline.iter().chain(outline.first()).copied().collect()
}

/// Two packs of plates pressed together.
fn closed_packs(scene: &mut Scene, middle: Point) {
    const PITCH: f64 = 3.0;
    for plate in 0..6 {
        let x = middle.x + (f64::from(plate) - 2.5) * PITCH;
        let line = [at(x, middle.y - 8.0), at(x, middle.y + 8.0)];
        scene.line(line[0], line[1], Stroke::solid(Ink::Text, 1.5));
    }
}

/// Rollers between two races, for a one-way clutch that locks.
fn rollers(scene: &mut Scene, middle: Point) {
    for side in [-8.0, 8.0] {
        let (from, to) = (
            at(middle.x - 9.0, middle.y + side),
            at(middle.x + 9.0, middle.y + side),
        );
        scene.line(from, to, Stroke::solid(Ink::Text, 1.5));
    }
    for side in [-5.0, 5.0] {
        scene.disc(at(middle.x + side, middle.y), 4.0, Ink::Text);
    }
}

/// A small sign for "held to the housing".
fn ground(scene: &mut Scene, middle: Point) {
    let (left, right) = (middle.x - 5.0, middle.x + 5.0);
    let top = middle.y - 1.0;
    scene.line(
        at(middle.x, top - 5.0),
        at(middle.x, top),
        Stroke::solid(Ink::Housing, 1.5),
    );
    scene.line(
        at(left, top),
        at(right, top),
        Stroke::solid(Ink::Housing, 1.5),
    );
    for foot in [left + 1.0, left + 5.0, right - 1.0] {
        let stroke = Stroke::solid(Ink::Housing, 1.0);
        scene.line(at(foot, top), at(foot - 3.0, top + 4.0), stroke);
    }
}
