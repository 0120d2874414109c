//! The half-section drawing, and the columns that the lever diagram shares with it.
//!
//! [`Layout`] plans it once per train on a grid (`plan.rs`); [`Stage`] fits the plan to a width;
//! the scene and the hit tests are read off the stage.

mod axes;
mod board;
mod circles;
mod columns;
mod dice;
mod draft;
mod far;
mod figures;
mod gear;
mod grid;
mod grips;
mod handle;
mod keeping;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod keeping_tests;
mod known;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod label_tests;
mod labels;
mod lettering;
mod mending;
mod moved;
mod nested;
mod outlines;
mod pack_names;
mod packs;
mod pairs;
mod parts;
mod places;
mod plan;
mod planning;
mod power;
#[cfg(test)]
mod power_tests;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod proportion_tests;
mod radii;
mod saying;
mod search;
mod shape;
mod stage;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;
mod wires;

use std::cell::OnceCell;
use std::task::Poll;

use levertrain_core::words::word;
use levertrain_core::{Body, Train};

use super::scene::{Align, Dash, Ink, Point, Scene, Stroke, at};
use crate::motion::live::Live;
use axes::Axes;
use columns::column_steps;
pub use far::Far;
pub use grips::Grips;
pub use handle::{Handle, StageSize};
pub use known::Known;
use lettering::Usual;
pub use mending::Mending;
pub use moved::Moved;
pub use places::ASKED;
use places::Places;
use plan::Plan;
use planning::{BEGIN_NEST, BeginNest, Planning};
use radii::Radii;
pub use stage::{Column, Stage};

/// Where a train's parts stand, independent of the size of the drawing.
#[derive(Debug, Clone)]
pub struct Layout {
    train: Train,
    /// The plan as it was found, for trains of the same shape.
    found: Plan,
    plan: Plan,
    /// Whether each shaft is drawn about an axis of its own.
    own_axis: Vec<bool>,
    /// Whether all gears have one module.
    one_module: bool,
    radii: Radii,
    /// Distance of each grid column from the one before it, at least.
    steps: Vec<f64>,
    places: Places,
    /// Where they stand beside the wide lines of power.
    with_power: OnceCell<Places>,
}

/// Has this engine draw trains that nest after an embedding, where nothing else finds a plan without crossings.
pub fn draw_nested() {
    let begin: BeginNest = |train, dice| Some(Box::new(nested::Laying::of(train, dice)?));
    BEGIN_NEST.get_or_init(|| begin);
}

/// A train that is being laid out, step by step.
#[derive(Debug)]
pub struct LayingOut(Planning);

impl LayingOut {
    /// Nothing done yet.
    pub fn of(train: &Train) -> Self {
        Self(Planning::of(train))
    }

    /// Takes one more step, which is short; the layout, after the last.
    pub fn advance(&mut self, train: &Train) -> Option<Layout> {
        Some(Layout::by(self.0.advance(train)?, train))
    }
}

impl Layout {
    /// Lays a train out, in one go.
    pub fn of(train: &Train) -> Self {
        let mut laying_out = LayingOut::of(train);
        loop {
            if let Some(layout) = laying_out.advance(train) {
                return layout;
            }
        }
    }

    /// Lays a train out as planned.
    fn by(found: Plan, train: &Train) -> Self {
        let axes = Axes::of(train);
        let mut plan = found.clone();
        let own = axes.straighten(&mut plan, train);
        let mut layout = Self {
            radii: Radii::of(&plan, train, &axes, &own, false),
            steps: column_steps(&plan, train),
            found,
            plan,
            own_axis: own,
            one_module: false,
            train: train.clone(),
            places: Places::default(),
            with_power: OnceCell::new(),
        };
        layout.letter();
        layout
    }

    /// The layout of a train that was changed: what has not changed stays in its place. Where shafts
    /// cross that might not, also what may better it.
    pub fn after(&self, train: &Train) -> (Self, Option<Mending>) {
        match keeping::plan_after(&self.found, &self.train, train) {
            Some((plan, mending)) => (self.as_planned(plan, train), mending),
            None => {
                let (plan, mending) = Mending::from_nothing(train);
                (self.as_planned(plan, train), mending)
            }
        }
    }

    /// What may better it, as it was laid out from nothing: where shafts cross that need not.
    pub fn mending(&self) -> Option<Mending> {
        let crossings = self.crosses_needlessly().then(|| self.crossings())?;
        Mending::by_embedding(crossings, &self.train)
    }

    /// Takes one more step of bettering it, which is short. After the last the layout, if it is another.
    pub fn mended(&self, mending: &mut Mending) -> Poll<Option<Self>> {
        let better = mending.advance(&self.train);
        better.map(|plan| plan.map(|plan| self.as_planned(plan, &self.train)))
    }

    /// Another plan, drawn to the same scale.
    fn as_planned(&self, plan: Plan, train: &Train) -> Self {
        let mut layout = Self::by(plan, train);
        layout.scale(self.one_module);
        layout
    }

    /// Draws all gears with one module, or lets each set fill the room.
    pub fn scale(&mut self, one_module: bool) {
        if self.one_module == one_module {
            return;
        }
        let (train, axes) = (&self.train, Axes::of(&self.train));
        self.one_module = one_module;
        self.radii = Radii::of(&self.plan, train, &axes, &self.own_axis, one_module);
        self.steps = column_steps(&self.plan, train);
        self.letter();
    }

    /// Finds places for all words; where an ordinary name would be cut, everything moves apart a bit.
    fn letter(&mut self) {
        const APART: f64 = 1.12;
        const TIMES: usize = 3;
        for _ in 0..TIMES {
            let stage = self.stage(0.0);
            let places = Places::find(&stage, wires::SHAFT, Usual);
            // Long names are cut anyway.
            let ordinary = Places::are_ordinary(&stage);
            let with_power = ordinary.then(|| Places::find(&stage, power::WIDEST, Usual));
            let all = [Some(&places), with_power.as_ref()];
            let cut = all.into_iter().flatten().any(|all| all.cut_some(&stage));
            self.places = places;
            self.with_power = with_power.map_or_else(OnceCell::new, OnceCell::from);
            if !ordinary || !cut {
                break;
            }
            self.steps.iter_mut().for_each(|step| *step *= APART);
        }
    }

    /// Fits the layout to an available width in CSS pixels.
    pub fn stage(&self, available: f64) -> Stage<'_> {
        Stage::fit(self, available)
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
        let chain = Stroke::broken(Ink::Quiet, 1.0, Dash::Chain);
        for [from, to] in self.axis_lines() {
            scene.line(from, to, chain);
        }
        packs::draw_housing(&mut scene, self);
        match &live.powers {
            Some(powers) => {
                wires::draw_supports(&mut scene, self);
                power::draw(&mut scene, self, live, powers);
            }
            None => wires::draw(&mut scene, self, live),
        }
        figures::draw(&mut scene, self, live, Usual);
        packs::draw(&mut scene, self, live);
        self.ends(&mut scene, live);
        self.places(live.powers.is_some())
            .letter(&mut scene, self, live, Usual);
        if let Some(powers) = &live.powers {
            power::note_capped(&mut scene, self, live.train, powers);
        }
        scene
    }

    /// The main axis, and those that the two ends turn about where it is another.
    fn axis_lines(&self) -> Vec<[Point; 2]> {
        const BEYOND: f64 = 12.0;
        let mut lines = Vec::new();
        let train = self.train();
        let mut reach = [6.0, self.size().width - 6.0];
        for end in [Side::Input, Side::Output] {
            let body = end.body(train);
            let Some(y) = self.own_axis(plan::member(body, train)) else {
                continue;
            };
            let parts = self.plan().parts.iter();
            let couplings = parts.filter(|part| part.body == body);
            let faces: Vec<(f64, f64)> = couplings.map(|part| self.face(part.coupling)).collect();
            let (inner, main) = match end {
                Side::Input => {
                    let right = faces.iter().map(|face| face.1).fold(0.0, f64::max);
                    let left = faces.iter().map(|face| face.0);
                    (right + BEYOND, left.fold(right, f64::min) - BEYOND)
                }
                Side::Output => {
                    let left = faces.iter().map(|face| face.0);
                    let left = left.fold(f64::INFINITY, f64::min);
                    let right = faces.iter().map(|face| face.1);
                    (left - BEYOND, right.fold(left, f64::max) + BEYOND)
                }
            };
            lines.push([at(inner, y), at(reach[end as usize], y)]);
            reach[end as usize] = main;
        }
        lines.push(reach.map(|x| at(x, self.axis())));
        lines
    }

    /// Arrows where the input comes in and the output goes out.
    // Inline, as `packs::draw`.
    #[inline(always)]
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
        let shaft = plan::member(end.body(self.train()), self.train());
        let inner = self.point_of(shaft, self.plan().ends[end as usize]);
        let x = match end {
            Side::Input => 8.0,
            Side::Output => self.size().width - 8.0,
        };
        (inner, at(x, inner.y))
    }
}

/// One of the two ends of the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Side {
    Input,
    Output,
}

impl Side {
    fn word(self) -> &'static str {
        match self {
            Self::Input => word("end-input"),
            Self::Output => word("end-output"),
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
