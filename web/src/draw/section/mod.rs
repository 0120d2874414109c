//! The half-section drawing, and the columns that the lever diagram shares with it.
//!
//! [`Layout`] plans it once per train on a grid (`plan.rs`); [`Stage`] fits the plan to a width;
//! the scene and the hit tests are read off the stage.

mod board;
mod dice;
mod figures;
mod grid;
mod outlines;
mod packs;
mod parts;
mod plan;
mod power;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod power_tests;
mod stage;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;
mod wires;

use levertrain_core::words::number;
use levertrain_core::{Body, Train};

use super::scene::{Align, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::live::{Live, Motion};
use plan::Plan;
pub use stage::{Column, Stage};

/// Where a train's parts stand, independent of the size of the drawing.
#[derive(Debug, Clone)]
pub struct Layout {
    train: Train,
    plan: Plan,
}

impl Layout {
    /// Lays a train out.
    pub fn of(train: &Train) -> Self {
        Self {
            plan: Plan::of(train),
            train: train.clone(),
        }
    }

    /// Fits the layout to an available width in CSS pixels.
    pub fn stage(&self, available: f64) -> Stage<'_> {
        Stage::fit(&self.plan, &self.train, available)
    }

    /// How many times shafts cross in the drawing.
    pub fn crossings(&self) -> usize {
        self.plan.crossings
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
            let near = segments.map(|segment| (segment.distance(point), segment.shaft));
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
            Some(powers) => power::draw(&mut scene, self, live, powers),
            None => wires::draw(&mut scene, self, live),
        }
        figures::draw(&mut scene, self, live);
        packs::draw(&mut scene, self, live);
        self.ends(&mut scene, live);
        if let Some(powers) = &live.powers {
            power::note_capped(&mut scene, self, live.train, powers);
        }
        scene
    }

    /// Arrows and words where the input comes in and the output goes out.
    fn ends(&self, scene: &mut Scene, live: &Live<'_>) {
        let right = self.size().width;
        let [input, output] = self.plan().ends.map(|node| self.point(node));
        let shafts = [live.train.input(), live.train.output()].map(Body::Shaft);
        let ends = [
            (
                input,
                at(8.0, input.y),
                shafts[0],
                "Input",
                Align::Left,
                input.x - 4.0,
            ),
            (
                output,
                at(right - 8.0, output.y),
                shafts[1],
                "Output",
                Align::Right,
                right - 8.0,
            ),
        ];
        for (inner, outer, body, word, align, tip) in ends {
            // All power comes in here and goes out there.
            let stroke = match live.powers {
                Some(_) => power::stroke(live, body, 1.0),
                None => live.stroke(body, 3.0),
            };
            scene.line(inner, outer, stroke);
            scene.arrow_head(
                at(tip, inner.y),
                (1.0, 0.0),
                11.0_f64.max(stroke.width * 2.0),
                stroke.ink,
            );
            scene.label(Label {
                at: at(outer.x, outer.y - 14.0),
                text: word.to_owned(),
                size: 13.0,
                bold: true,
                ink: Ink::Text,
                align,
                plate: true,
            });
            let speed = match live.motion(body) {
                Motion::Free => "free".to_owned(),
                _ => format!(
                    "{} {}",
                    number(live.lettered_speed(body), 4),
                    live.speed_unit.name()
                ),
            };
            scene.label(Label {
                at: at(outer.x, outer.y + 14.0),
                text: speed,
                size: 12.0,
                bold: false,
                ink: Ink::Text,
                align,
                plate: true,
            });
        }
    }
}
