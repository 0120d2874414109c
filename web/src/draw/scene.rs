//! A drawing as data: marks in CSS pixels, inked by meaning.
//!
//! Scenes are made by pure functions from state; painting one (in `paint.rs`) decides
//! nothing. Tests read scenes, so what they check is what gets drawn.

use super::text;

/// A point in CSS pixels: x to the right, y down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// Short for a [`Point`].
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// What a mark means; the palette gives each meaning a colour. Every meaning that matters is
/// also carried by shape, dash or words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// The ground everything is drawn on.
    Paper,
    /// Ordinary text and outlines.
    Text,
    /// Quiet text and outlines.
    Quiet,
    /// Guide lines.
    Guide,
    /// The housing and what is held to it.
    Housing,
    /// Turns the way the input does.
    Forward,
    /// Turns against the input.
    Backward,
    /// Stands still.
    Held,
    /// Nothing decides its speed.
    Free,
    /// Fights: part of a tie-up.
    Fight,
    /// Pointed at.
    Lit,
    /// Body of a gear or plate: a tint between paper and text.
    Metal,
    /// Power that flows through, as a tint that text can be read on.
    Power,
    /// Power that goes round.
    Round,
}

/// How a line is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long strokes: free members, previews.
    Dashed,
    /// Dots: guides.
    Dotted,
    /// Long and short strokes: centre lines, as on any engineering drawing.
    Chain,
}

/// A line's look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Meaning.
    pub ink: Ink,
    /// Width in CSS pixels.
    pub width: f64,
    /// How it is broken.
    pub dash: Dash,
}

impl Stroke {
    /// An unbroken line.
    pub const fn solid(ink: Ink, width: f64) -> Self {
        Self {
            ink,
            width,
            dash: Dash::Solid,
        }
    }

    /// A broken line.
    pub const fn broken(ink: Ink, width: f64, dash: Dash) -> Self {
        Self { ink, width, dash }
    }
}

/// Where a text stands relative to its point, left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// The point is at its left end.
    Left,
    /// The point is at its middle.
    Centre,
    /// The point is at its right end.
    Right,
}

/// A text, centred vertically on its point.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Its point.
    pub at: Point,
    /// What it says.
    pub text: String,
    /// Font size in CSS pixels.
    pub size: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Meaning.
    pub ink: Ink,
    /// Where it stands relative to the point.
    pub align: Align,
    /// Whether the ground behind it is cleared first.
    pub plate: bool,
}

impl Label {
    /// The box the text fills.
    pub fn bounds(&self) -> Bounds {
        let width = text::width(&self.text, self.size, self.bold);
        let left = match self.align {
            Align::Left => self.at.x,
            Align::Centre => self.at.x - width / 2.0,
            Align::Right => self.at.x - width,
        };
        let height = self.size * text::LINE;
        Bounds {
            left,
            top: self.at.y - height / 2.0,
            width,
            height,
        }
    }
}

/// A box in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Bounds {
    /// Whether two boxes share any area.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.left < other.left + other.width
            && other.left < self.left + self.width
            && self.top < other.top + other.height
            && other.top < self.top + self.height
    }

    /// The middle.
    pub const fn middle(&self) -> Point {
        at(self.left + self.width / 2.0, self.top + self.height / 2.0)
    }

    /// Whether a point lies inside.
    pub fn contains(&self, point: Point) -> bool {
        (self.left..=self.left + self.width).contains(&point.x)
            && (self.top..=self.top + self.height).contains(&point.y)
    }
}

/// One thing to paint.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A line through points.
    Path {
        /// The points.
        points: Vec<Point>,
        /// Its look.
        stroke: Stroke,
    },
    /// A filled polygon.
    Fill {
        /// Its corners.
        points: Vec<Point>,
        /// Meaning.
        ink: Ink,
    },
    /// A filled circle.
    Disc {
        /// Its centre.
        centre: Point,
        /// Its radius in CSS pixels.
        radius: f64,
        /// Meaning.
        ink: Ink,
    },
    /// A text.
    Text(Label),
}

/// A drawing: marks from back to front.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Width in CSS pixels.
    pub width: f64,
    /// Height in CSS pixels.
    pub height: f64,
    /// The marks, from back to front.
    pub marks: Vec<Mark>,
}

impl Scene {
    /// An empty drawing.
    pub const fn new(width: f64, height: f64) -> Self {
        Self {
            width,
            height,
            marks: Vec::new(),
        }
    }

    /// Adds a line.
    pub fn path(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.marks.push(Mark::Path { points, stroke });
    }

    /// Adds a straight line.
    pub fn line(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.path(vec![from, to], stroke);
    }

    /// Adds a filled polygon.
    pub fn fill(&mut self, points: Vec<Point>, ink: Ink) {
        self.marks.push(Mark::Fill { points, ink });
    }

    /// Adds a filled rectangle.
    pub fn fill_box(&mut self, area: Bounds, ink: Ink) {
        self.fill(corners(area).to_vec(), ink);
    }

    /// Adds the outline of a rectangle.
    pub fn outline_box(&mut self, area: Bounds, stroke: Stroke) {
        let [a, b, c, d] = corners(area);
        self.path(vec![a, b, c, d, a], stroke);
    }

    /// Adds a filled circle.
    pub fn disc(&mut self, centre: Point, radius: f64, ink: Ink) {
        self.marks.push(Mark::Disc {
            centre,
            radius,
            ink,
        });
    }

    /// Adds a text.
    pub fn label(&mut self, label: Label) {
        self.marks.push(Mark::Text(label));
    }

    /// Adds an arrow head at `tip`, pointing along (`dx`, `dy`).
    pub fn arrow_head(&mut self, tip: Point, (dx, dy): (f64, f64), size: f64, ink: Ink) {
        let length = dx.hypot(dy);
        let (ux, uy) = (dx / length * size, dy / length * size);
        let (left, right) = (0.55, -0.55);
        let corner = |side: f64| at(tip.x - ux - uy * side, tip.y - uy + ux * side);
        self.fill(vec![tip, corner(left), corner(right)], ink);
    }

    /// Adds the sign for "fixed to the housing": a line with hatching on its far side, from
    /// `from` to `to`, hatched towards (`dx`, `dy`).
    pub fn ground(&mut self, from: Point, to: Point, (dx, dy): (f64, f64), ink: Ink) {
        const SPACING: f64 = 6.0;
        let stroke = Stroke::solid(ink, 1.25);
        self.line(from, to, Stroke::solid(ink, 2.0));
        let length = (to.x - from.x).hypot(to.y - from.y);
        let count = (length / SPACING).floor().max(1.0) as usize;
        let mut comb = Vec::with_capacity(3 * (count + 1));
        for index in 0..=count {
            let along = index as f64 / count as f64;
            let foot = at(
                from.x + (to.x - from.x) * along,
                from.y + (to.y - from.y) * along,
            );
            // Slanted along the line, so the hatching reads as such whichever way it faces.
            let (ux, uy) = ((to.x - from.x) / length, (to.y - from.y) / length);
            let tip = at(
                foot.x + dx - ux * dy.abs().max(dx.abs()),
                foot.y + dy - uy * dy.abs().max(dx.abs()),
            );
            comb.extend([foot, tip, foot]);
        }
        // One stroke, back along the line: there are hundreds of teeth in a large drawing.
        self.path(comb, stroke);
    }

    /// Lets the points of every mark be put elsewhere.
    pub fn replace(&mut self, place: impl Fn(&mut [Point])) {
        for mark in &mut self.marks {
            match mark {
                Mark::Path { points, .. } | Mark::Fill { points, .. } => place(points),
                Mark::Disc { centre, .. } => place(std::slice::from_mut(centre)),
                Mark::Text(label) => place(std::slice::from_mut(&mut label.at)),
            }
        }
    }

    /// The texts of the drawing.
    pub fn labels(&self) -> impl Iterator<Item = &Label> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Text(label) => Some(label),
            _ => None,
        })
    }
}

fn corners(area: Bounds) -> [Point; 4] {
    let (right, bottom) = (area.left + area.width, area.top + area.height);
    [
        at(area.left, area.top),
        at(right, area.top),
        at(right, bottom),
        at(area.left, bottom),
    ]
}
