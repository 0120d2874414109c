//! The signs of the diagram, drawn the same on the levers and in the key.

use levertrain_core::sin_cos;

use super::geometry::Node;
use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::motion::live::Motion;

/// Size of the letter in a node, in CSS pixels, and of two letters in a small one.
const LETTER_SIZE: f64 = 12.5;
const SMALL_LETTER_SIZE: f64 = 12.0;
/// The least radius that is not small for two letters.
const TWO_LETTERS: f64 = 9.5;
/// Width of the rings and frames around a node.
const COLLAR_STROKE: f64 = 2.0;
/// From the edge of a node to the middle of its output ring, input frame or break mark.
const RING: f64 = 4.0;
const FRAME: f64 = 4.5;
const FRAME_OUTSIDE_RING: f64 = 8.0;
const BREAK: f64 = 5.0;
/// Width of the line between the nodes of one shaft.
pub(super) const LINK: f64 = 2.0;
/// Radius of a node of the change being tried.
pub(super) const GHOST: f64 = 5.0;
/// Height of the ground sign, and half its width.
const GROUND: (f64, f64) = (6.0, 9.0);

/// What is marked on a node.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// How it moves.
    pub motion: Motion,
    /// Framed as the input.
    pub input: bool,
    /// Ringed as the output.
    pub output: bool,
}

impl Look {
    /// The look of a node.
    pub(super) fn of(node: &Node) -> Self {
        Self {
            motion: node.motion,
            input: node.input,
            output: node.output,
        }
    }

    /// How far a node of this radius reaches from its centre with everything around it.
    pub(super) fn reach(self, radius: f64) -> f64 {
        let around = match (self.motion, self.input, self.output) {
            (Motion::Fighting, ..) => BREAK + 3.0,
            (_, true, true) => FRAME_OUTSIDE_RING + COLLAR_STROKE / 2.0,
            (_, true, false) => FRAME + COLLAR_STROKE / 2.0,
            (_, false, true) => RING + COLLAR_STROKE / 2.0,
            (_, false, false) => 1.0,
        };
        radius + around
    }

    /// Draws a node: filled by how it moves, hollow and broken where it is free.
    pub(super) fn draw(self, scene: &mut Scene, centre: Point, radius: f64, letter: Option<&str>) {
        let ink = self.motion.ink();
        let solid = Stroke::solid(ink, COLLAR_STROKE);
        if self.motion == Motion::Fighting {
            // A jagged edge: what is torn two ways.
            scene.path(jagged(centre, radius + BREAK), Stroke::solid(ink, 1.75));
        } else {
            if self.output {
                scene.path(circle(centre, radius + RING), solid);
            }
            if self.input {
                let half = radius
                    + if self.output {
                        FRAME_OUTSIDE_RING
                    } else {
                        FRAME
                    };
                scene.outline_box(square(centre, half), solid);
            }
        }
        let letter_ink = if self.motion == Motion::Free {
            scene.disc(centre, radius, Ink::Paper);
            let edge = circle(centre, radius - COLLAR_STROKE / 2.0);
            scene.path(edge, Stroke::broken(ink, COLLAR_STROKE, Dash::Dashed));
            Ink::Quiet
        } else {
            scene.disc(centre, radius, ink);
            Ink::Paper
        };
        if let Some(letter) = letter {
            scene.label(Label {
                at: centre,
                text: letter.to_owned(),
                size: if letter.len() > 1 && radius < TWO_LETTERS {
                    SMALL_LETTER_SIZE
                } else {
                    LETTER_SIZE
                },
                bold: true,
                ink: letter_ink,
                align: Align::Centre,
                plate: false,
            });
        }
    }
}

/// Draws a node of the change being tried.
pub(super) fn ghost(scene: &mut Scene, centre: Point) {
    scene.disc(centre, GHOST, Ink::Quiet);
    scene.disc(centre, GHOST - 1.5, Ink::Paper);
}

/// Draws the sign for "held to the housing" under `foot`.
pub(super) fn ground(scene: &mut Scene, foot: Point) {
    let (height, half) = GROUND;
    // The hatching leans to the left by its height: shifted half of it, the sign is centred.
    let shift = height / 2.0;
    scene.ground(
        at(foot.x - half + shift, foot.y),
        at(foot.x + half + shift, foot.y),
        (0.0, height),
        Ink::Housing,
    );
}

/// The box that the ground sign under `foot` fills.
pub(super) fn ground_area(foot: Point) -> Bounds {
    let (height, half) = GROUND;
    let reach = half + height / 2.0 + 1.0;
    Bounds {
        left: foot.x - reach,
        top: foot.y - 1.0,
        width: 2.0 * reach,
        height: height + 2.0,
    }
}

/// A box of half the side length `half` around a point.
pub(super) fn square(centre: Point, half: f64) -> Bounds {
    Bounds {
        left: centre.x - half,
        top: centre.y - half,
        width: 2.0 * half,
        height: 2.0 * half,
    }
}

fn circle(centre: Point, radius: f64) -> Vec<Point> {
    const CORNERS: usize = 40;
    around(centre, CORNERS, |_| radius)
}

fn jagged(centre: Point, radius: f64) -> Vec<Point> {
    const TEETH: usize = 11;
    /// Half of a tooth's height, by the radius: a small sign has small teeth.
    const DEPTH: f64 = 0.175;
    around(centre, 2 * TEETH, |corner| {
        radius
            * if corner % 2 == 0 {
                1.0 + DEPTH
            } else {
                1.0 - DEPTH
            }
    })
}

/// A closed line around a point.
fn around(centre: Point, corners: usize, radius: impl Fn(usize) -> f64) -> Vec<Point> {
    (0..=corners)
        .map(|corner| {
            let corner = corner % corners;
            let (sin, cos) = sin_cos(corner as f64 / corners as f64 * std::f64::consts::TAU);
            at(
                centre.x + radius(corner) * cos,
                centre.y + radius(corner) * sin,
            )
        })
        .collect()
}
