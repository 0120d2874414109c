//! Where the words of a half-section stand: clear of every line, gear and pack, and of each other.
//!
//! Places are chosen against everything a drawing of this train may ever show there (packs open
//! and closed, lines at their widest), so a name stays where it is from state to state.

use super::figures::outline;
use super::handle::StageSize;
use super::plan::PackPlace;
use super::stage::{HOUSING, Stage};
use super::wires::{SHAFT, segments};
use super::{Side, packs};
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::{names, text};

/// Clear space around a text.
const CLEAR: f64 = 1.5;
/// From this distance on a line leads from a text to what it names.
const LEADER_FROM: f64 = 16.0;
/// How far a search goes from the first choice, and its steps, in CSS pixels.
const FARTHEST: (f64, f64) = (112.0, 120.0);
const STEP: (f64, f64) = (7.0, 6.0);
/// Characters that are left of a long text, the most first.
const CUTS: [usize; 7] = [30, 22, 16, 11, 7, 4, 2];

/// A text that wants a place.
pub struct Wanted {
    /// The fullest wording first.
    pub texts: Vec<String>,
    /// Font size in CSS pixels.
    pub size: f64,
    /// Whether room is kept for bold letters.
    pub bold: bool,
    /// What it names, and a text may come near.
    pub subject: Bounds,
    /// Points to stand at before any other, the best first, and how.
    pub first: Vec<(Point, Align)>,
}

/// Where a text stands.
#[derive(Debug, Clone)]
pub struct Place {
    /// Which wording.
    pub text: String,
    /// Its middle.
    pub at: Point,
    /// What it names.
    subject: Bounds,
    /// Its own box.
    area: Bounds,
    /// A line that leads to what it names.
    pub leader: Option<[Point; 2]>,
}

impl Place {
    /// How far it is from what it names.
    pub fn away(&self) -> f64 {
        gap(&self.subject, &self.area)
    }

    /// The box of the text and of another.
    pub fn with(&self, other: &Bounds) -> Bounds {
        let (left, top) = (self.area.left.min(other.left), self.area.top.min(other.top));
        let right = |area: &Bounds| area.left + area.width;
        let bottom = |area: &Bounds| area.top + area.height;
        Bounds {
            left,
            top,
            width: right(&self.area).max(right(other)) - left,
            height: bottom(&self.area).max(bottom(other)) - top,
        }
    }

    /// Where a text begins or ends that goes on in the same line, away from the end of the train that it is at.
    pub fn beside(&self, end: Side) -> Point {
        let space = (0.45 * self.area.height).min(LEADER_FROM - 2.0);
        let x = match end {
            Side::Input => self.area.left + self.area.width + space,
            Side::Output => self.area.left - space,
        };
        at(x, self.at.y)
    }

    /// The place in a drawing that is spread out along the axis: text and subject keep their size.
    pub fn spread(&self, along: &dyn Fn(f64) -> f64) -> Self {
        let moved = |area: &Bounds| Bounds {
            left: along(area.middle().x) - area.width / 2.0,
            ..*area
        };
        let (subject, area) = (moved(&self.subject), moved(&self.area));
        Self {
            at: at(along(self.at.x), self.at.y),
            leader: leader(&subject, &area),
            subject,
            area,
            ..self.clone()
        }
    }
}

/// The room of a drawing.
#[derive(Clone)]
pub struct Room {
    area: Bounds,
    /// What no text may touch.
    ink: Vec<Bounds>,
    /// Things of which names should not seem to be about another.
    subjects: Vec<Bounds>,
    /// Texts in their places, and sets, which have texts on them.
    lettered: Vec<Bounds>,
}

impl Room {
    /// The room beside everything that a half-section draws, and so far above and below it; `line` is the widest line.
    pub fn of(stage: &Stage<'_>, line: f64, (above, below): (f64, f64)) -> Self {
        let train = stage.train();
        let StageSize {
            width,
            section_height: height,
            ..
        } = stage.size();
        let housing = [at(0.0, HOUSING - 8.0), at(width, HOUSING)];
        let mut ink = vec![around(housing[0], housing[1], 1.0)];
        let axes = stage.axis_lines().into_iter();
        ink.extend(axes.map(|[from, to]| around(from, to, 0.5)));
        ink.extend(
            segments(stage)
                .iter()
                .map(|segment| around(segment.from, segment.to, line / 2.0)),
        );
        let couplings = 0..train.scenario().couplings.len();
        let outlines: Vec<Bounds> = couplings.filter_map(|at| outline(stage, at)).collect();
        ink.extend(&outlines);
        let mut subjects = Vec::new();
        for (element, place) in stage.plan().packs.iter().enumerate() {
            let grid = &stage.plan().grid;
            let centre = stage.pack_centre(element);
            let area = packs::area(centre, !place.is_flat());
            match *place {
                PackPlace::Brake { column } => {
                    let lead = at(stage.x(column), stage.y(grid.brake_row()));
                    ink.push(around(at(lead.x, HOUSING), lead, SHAFT / 2.0));
                }
                PackPlace::Clutch { column, row, .. } => {
                    let [left, right] =
                        [column, column + 2].map(|column| at(stage.x(column), stage.y(row)));
                    ink.push(around(left, right, line / 2.0));
                }
            }
            ink.push(area);
            ink.push(packs::break_area(centre));
            subjects.push(area);
        }
        let shafts = [(train.input(), 8.0), (train.output(), width - 8.0)];
        for (node, (shaft, outer)) in stage.plan().ends.iter().zip(&shafts) {
            let inner = stage.point_of(*shaft, *node);
            // The arrow heads are wider than the line.
            ink.push(around(inner, at(*outer, inner.y), line.max(13.0) / 2.0));
        }
        Self {
            area: Bounds {
                left: 2.0,
                top: 2.0 - above,
                width: width - 4.0,
                height: height - 4.0 + above + below,
            },
            ink,
            subjects,
            lettered: outlines,
        }
    }

    /// Keeps texts so far from gears, whose letters are larger than they.
    pub fn take_lettered(&mut self, apart: f64) {
        self.ink
            .extend(self.lettered.iter().map(|gears| grown(gears, apart)));
    }

    /// Keeps texts out of the box of a text.
    pub fn take(&mut self, area: Bounds) {
        self.ink.push(area);
        self.lettered.push(area);
    }

    /// The best place for a text, which is taken then; a long text is cut where it must be.
    pub fn place(&mut self, wanted: &Wanted) -> Option<Place> {
        let cut = wanted
            .texts
            .last()
            .into_iter()
            .flat_map(|text| CUTS.into_iter().filter_map(|cut| shortened(text, cut)));
        let texts: Vec<String> = wanted.texts.iter().cloned().chain(cut).collect();
        for text in texts {
            let size = (
                text::width(&text, wanted.size, wanted.bold),
                wanted.size * text::LINE,
            );
            let first = wanted.first.iter().map(|&(point, align)| match align {
                Align::Left => at(point.x + size.0 / 2.0, point.y),
                Align::Centre => point,
                Align::Right => at(point.x - size.0 / 2.0, point.y),
            });
            let near = first.into_iter().find(|&spot| {
                let area = boxed(spot, size);
                let spaced = grown(&area, CLEAR);
                let is_clear =
                    self.holds(&spaced) && !self.ink.iter().any(|ink| ink.overlaps(&spaced));
                is_clear && self.is_plain(&area, wanted)
            });
            let found = near.or_else(|| self.search(size, wanted));
            let Some(spot) = found else { continue };
            let area = boxed(spot, size);
            let leader = leader(&wanted.subject, &area);
            self.take(area);
            if let Some([from, to]) = leader {
                self.ink.push(around(from, to, 0.5));
            }
            return Some(Place {
                text,
                at: spot,
                subject: wanted.subject,
                area,
                leader,
            });
        }
        None
    }

    /// The nearest free place where nobody could take it for another thing's name, or else the nearest
    /// to which a line leads.
    fn search(&self, size: (f64, f64), wanted: &Wanted) -> Option<Point> {
        let middle = wanted.subject.middle();
        let [mut plain, mut led] = [None::<(f64, Point)>; 2];
        let (columns, rows) = (
            ((FARTHEST.0 + size.0 / 2.0) / STEP.0) as i32,
            (FARTHEST.1 / STEP.1) as i32,
        );
        for row in -rows..=rows {
            let dy = f64::from(row) * STEP.1;
            let reach = size.0 + 2.0 * f64::from(columns) * STEP.0;
            let band = boxed(at(middle.x, middle.y + dy), (reach, size.1));
            let band = grown(&band, 2.0 * CLEAR);
            let in_row = self.ink.iter().filter(|ink| ink.overlaps(&band));
            let ink: Vec<Bounds> = in_row.copied().collect();
            // What blocked the last place: most likely the next one too.
            let mut blocker = 0;
            for column in -columns..=columns {
                let dx = f64::from(column) * STEP.0;
                let spot = at(middle.x + dx, middle.y + dy);
                let area = boxed(spot, size);
                let spaced = grown(&area, CLEAR);
                let blocks = |ink: &Bounds| ink.overlaps(&spaced);
                if !self.holds(&spaced) || ink.get(blocker).is_some_and(blocks) {
                    continue;
                }
                // Near first, then centred, then above.
                let away = gap(&wanted.subject, &area);
                let cost = away + 0.12 * dx.abs() + if dy > 0.0 { 1.0 } else { 0.0 };
                let beats = |best: Option<(f64, Point)>| best.is_none_or(|(least, _)| cost < least);
                if !beats(plain) {
                    continue;
                }
                if let Some(found) = ink.iter().position(blocks) {
                    blocker = found;
                } else if self.is_plain(&area, wanted) {
                    plain = Some((cost, spot));
                } else if beats(led) && self.is_led(&area, wanted) {
                    led = Some((cost, spot));
                }
            }
        }
        plain.or(led).map(|(_, spot)| spot)
    }

    fn holds(&self, area: &Bounds) -> bool {
        area.left >= self.area.left
            && area.top >= self.area.top
            && area.left + area.width <= self.area.left + self.area.width
            && area.top + area.height <= self.area.top + self.area.height
    }

    /// Whether a line leads to a text, past no other text.
    fn is_led(&self, area: &Bounds, wanted: &Wanted) -> bool {
        let leader = leader(&wanted.subject, area);
        leader.is_some_and(|leader| !crosses(leader, &mut self.lettered.iter(), wanted))
    }

    /// Whether nobody could take a text for another thing's name.
    fn is_plain(&self, area: &Bounds, wanted: &Wanted) -> bool {
        // A name nearer to another pack would be read as that one's.
        let own = gap(&wanted.subject, area);
        let mut others = self
            .subjects
            .iter()
            .filter(|other| **other != wanted.subject);
        if others.any(|other| gap(other, area) < own) {
            return false;
        }
        // A leader may pass a line but no gear, pack or word.
        let solid = |ink: &&Bounds| ink.width.min(ink.height) > 12.0;
        let leader = leader(&wanted.subject, area);
        leader.is_none_or(|leader| !crosses(leader, &mut self.ink.iter().filter(solid), wanted))
    }
}

/// Whether a leader crosses others than what is named.
fn crosses(
    [from, to]: [Point; 2],
    mut others: &mut dyn Iterator<Item = &Bounds>,
    wanted: &Wanted,
) -> bool {
    let way = around(from, to, 1.0);
    // By the reference, which is an iterator too.
    Iterator::any(&mut others, |other| {
        *other != wanted.subject && other.overlaps(&way)
    })
}

/// Adds a text in a place, with its leader.
pub fn letter(scene: &mut Scene, place: &Place, text: &str, size: f64, bold: bool, ink: Ink) {
    if let Some([from, to]) = place.leader {
        scene.line(from, to, Stroke::solid(Ink::Quiet, 1.0));
    }
    scene.label(Label {
        at: place.at,
        text: text.to_owned(),
        size,
        bold,
        ink,
        align: Align::Centre,
        plate: false,
    });
}

/// A text of at most `most` characters and a sign that it goes on; none where it is no longer.
fn shortened(text: &str, most: usize) -> Option<String> {
    (text.chars().count() > most + 1).then(|| {
        let kept: String = text.chars().take(most).collect();
        names::cut(&kept)
    })
}

/// The longest beginning of a text that fits a width.
pub fn fitted(text: &str, size: f64, bold: bool, width: f64) -> String {
    let whole = (text::width(text, size, bold) <= width).then(|| text.to_owned());
    let length = text.chars().count();
    whole
        .or_else(|| {
            let cuts = (1..length).rev().filter_map(|most| shortened(text, most));
            cuts.into_iter()
                .find(|cut| text::width(cut, size, bold) <= width)
        })
        .unwrap_or_default()
}

/// The box of a line.
fn around(from: Point, to: Point, half: f64) -> Bounds {
    Bounds {
        left: from.x.min(to.x) - half,
        top: from.y.min(to.y) - half,
        width: (from.x - to.x).abs() + 2.0 * half,
        height: (from.y - to.y).abs() + 2.0 * half,
    }
}

fn boxed(middle: Point, (width, height): (f64, f64)) -> Bounds {
    Bounds {
        left: middle.x - width / 2.0,
        top: middle.y - height / 2.0,
        width,
        height,
    }
}

fn grown(area: &Bounds, by: f64) -> Bounds {
    Bounds {
        left: area.left - by,
        top: area.top - by,
        width: area.width + 2.0 * by,
        height: area.height + 2.0 * by,
    }
}

/// How far two boxes are apart.
fn gap(one: &Bounds, other: &Bounds) -> f64 {
    let [[from, to], [from_y, to_y]] = nearest(one, other);
    (from - to).hypot(from_y - to_y)
}

/// The nearest points of two boxes: x of both, y of both.
fn nearest(one: &Bounds, other: &Bounds) -> [[f64; 2]; 2] {
    let side = |(low, length): (f64, f64), (other_low, other_length): (f64, f64)| {
        let (high, other_high) = (low + length, other_low + other_length);
        if high < other_low {
            [high, other_low]
        } else if other_high < low {
            [low, other_high]
        } else {
            let both = (low.max(other_low) + high.min(other_high)) / 2.0;
            [both, both]
        }
    };
    [
        side((one.left, one.width), (other.left, other.width)),
        side((one.top, one.height), (other.top, other.height)),
    ]
}

fn leader(subject: &Bounds, area: &Bounds) -> Option<[Point; 2]> {
    (gap(subject, area) >= LEADER_FROM).then(|| {
        let [x, y] = nearest(subject, area);
        [at(x[0], y[0]), at(x[1], y[1])]
    })
}
